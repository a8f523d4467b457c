import { Stale } from '../../domain/kernel/errors.js';
import type { Reply } from '../reply.js';

/**
 * Carries out a change; one that comes too late is told the present thing as its GET answers it, never as it is kept.
 *
 * @param show what GET answers
 * @throws Stale carrying that body; NotFound when the thing is gone by now
 */
export const presentAs = async <T>(show: () => Promise<Reply>, act: () => Promise<T>): Promise<T> => {
  try {
    return await act();
  } catch (error) {
    if (!(error instanceof Stale)) throw error;
    const shown = await show();
    throw shown.is === 'answer' ? new Stale(shown.body as Stale['present']) : error;
  }
};
