import { parentPort, workerData } from 'node:worker_threads';
import { fitHere, type ToFit } from './fit-aside.js';

parentPort?.postMessage(fitHere(workerData as ToFit));
