import { fork } from 'node:child_process';
import { fileURLToPath } from 'node:url';

/** Starts a program beside this file that says when it is ready and answers questions. */
export async function startChild(name, { args = [], told, execArgv = [] } = {}) {
  const child = fork(fileURLToPath(new URL(name, import.meta.url)), args, {
    stdio: ['ignore', 'inherit', 'inherit', 'ipc'],
    execArgv,
  });
  const heard = () =>
    new Promise((resolve, reject) => {
      child.once('message', (message) => {
        child.off('exit', ended);
        resolve(message);
      });
      const ended = (code) => reject(new Error(`${name} ended with ${code} before it answered.`));
      child.once('exit', ended);
    });
  if (told !== undefined) child.send(told);
  const ready = await heard();
  return {
    ready,
    pid: child.pid,
    ask(question) {
      const answer = heard();
      child.send(question);
      return answer;
    },
    stop: () =>
      new Promise((resolve) => {
        child.once('exit', resolve);
        child.kill('SIGTERM');
      }),
  };
}

/** Milliseconds of processor time this process has used. */
export const processorTime = () => {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
};

/** Megabytes of this process as the system counts them; `tidied`: after the garbage was collected, where that may be asked. */
export const memoryOf = (tidied) => {
  if (tidied) globalThis.gc?.();
  const { rss, heapUsed, external } = process.memoryUsage();
  return { whole: rss / 2 ** 20, heap: heapUsed / 2 ** 20, beside: external / 2 ** 20 };
};

/** Answers the questions put to a child: `answers[question]()`. */
export const answerQuestions = (answers) =>
  process.on('message', async (question) => {
    if (typeof question === 'string' && answers[question]) process.send(await answers[question]());
  });
