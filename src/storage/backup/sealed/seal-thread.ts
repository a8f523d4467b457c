import { parentPort, workerData } from 'node:worker_threads';
import { type Sealing, workAtSeal } from './age-file.js';

parentPort?.postMessage(await workAtSeal(workerData as Sealing));
