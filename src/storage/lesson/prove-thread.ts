import { parentPort, workerData } from 'node:worker_threads';
import { proveHere, type ToFit } from './fit-aside.js';

parentPort?.postMessage(proveHere(workerData as ToFit));
