// The least a page of twenty rows can cost here: Fastify alone draws the same template with the same words.
import Fastify from 'fastify';
import { Templates } from '../../dist/printing/templates/templates.js';
import { answerQuestions, processorTime } from './child.mjs';

process.once('message', async (words) => {
  const templates = new Templates(new URL('../../templates', import.meta.url).pathname);
  const app = Fastify();
  app.get('/clients', async (_request, reply) =>
    reply.type('text/html; charset=utf-8').send(templates.render('clients/list', words)),
  );
  const address = await app.listen({ port: 0, host: '127.0.0.1' });
  answerQuestions({ processor: processorTime });
  process.send({ address });
});
