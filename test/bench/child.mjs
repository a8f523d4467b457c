import { fork } from 'node:child_process';
import { fileURLToPath } from 'node:url';

/** Starts a program beside this file that says when it is ready and answers questions. */
export async function startChild(name, { args = [], told } = {}) {
  const child = fork(fileURLToPath(new URL(name, import.meta.url)), args, {
    stdio: ['ignore', 'inherit', 'inherit', 'ipc'],
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

/** Answers the questions put to a child: `answers[question]()`. */
export const answerQuestions = (answers) =>
  process.on('message', async (question) => {
    if (typeof question === 'string' && answers[question]) process.send(await answers[question]());
  });
