import { parentPort, workerData } from 'node:worker_threads';
import { answerTo, type LongQuestion } from './answers.js';

parentPort?.postMessage(answerTo(workerData as LongQuestion));
