import { Module } from '@nestjs/common';
import { PriceListApi } from './price-list/price-list.api.js';
import { PriceListController } from './price-list/price-list.controller.js';
import { RatesApi } from './rates.api.js';
import { RatesController } from './rates.controller.js';
import { YearApi, YearController } from './year/year.controller.js';

@Module({
  // The year's address would be read as the id of a card.
  controllers: [PriceListController, YearController, RatesController, PriceListApi, YearApi, RatesApi],
})
export class RatesModule {}
