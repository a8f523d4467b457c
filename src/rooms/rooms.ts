import { ClientsModule } from './clients/clients.module.js';
import { HistoryModule } from './history/history.module.js';

/** Every room of the house. */
export const rooms = [ClientsModule, HistoryModule];
