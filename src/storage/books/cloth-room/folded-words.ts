import type { ObjectLiteral, SelectQueryBuilder } from 'typeorm';
import { foldForSearch } from '../../../domain/clients/client.js';

/** Narrows a query to rows whose folded words hold every word asked for. */
export const holdingWords = <R extends ObjectLiteral>(
  query: SelectQueryBuilder<R>,
  alias: string,
  asked: string,
): SelectQueryBuilder<R> => {
  foldForSearch(asked)
    .split(' ')
    .filter((word) => word !== '')
    .slice(0, 8)
    .forEach((word, index) => {
      const pattern = `%${word.replace(/[\\%_]/g, '\\$&')}%`;
      query.andWhere(`${alias}.folded LIKE :word${index} ESCAPE '\\'`, { [`word${index}`]: pattern });
    });
  return query;
};
