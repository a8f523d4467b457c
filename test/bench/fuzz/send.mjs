import { Agent, request } from 'node:http';

const PATIENCE = 30_000;

/** Sends requests over a socket, one after the other; answers what came back and how long it took. */
export const openWire = (address) => {
  const agent = new Agent({ keepAlive: false });
  const send = ({ method, url, headers = {}, body }) =>
    new Promise((resolve) => {
      const from = performance.now();
      const done = (answer) => resolve({ headers: {}, text: '', ...answer, ms: performance.now() - from });
      const length = body === undefined ? {} : { 'content-length': Buffer.byteLength(body) };
      const asked = request(
        `${address}/`,
        { method, path: url, headers: { ...headers, ...length }, agent },
        (answer) => {
          const parts = [];
          answer.on('data', (part) => parts.push(part));
          answer.on('error', (error) => done({ status: 0, text: String(error) }));
          answer.on('end', () =>
            done({
              status: answer.statusCode,
              headers: answer.headers,
              text: Buffer.concat(parts).toString(),
            }),
          );
        },
      );
      asked.setTimeout(PATIENCE, () => asked.destroy(new Error('no answer')));
      asked.on('error', (error) => done({ status: 0, text: String(error) }));
      asked.end(body);
    });
  return { send, hangUp: () => agent.destroy() };
};
