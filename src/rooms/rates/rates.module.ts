import { Module } from '@nestjs/common';
import { PriceListApi } from './price-list/price-list.api.js';
import { PriceListController } from './price-list/price-list.controller.js';
import { RatesApi } from './rates.api.js';
import { RatesController } from './rates.controller.js';

@Module({ controllers: [PriceListController, RatesController, PriceListApi, RatesApi] })
export class RatesModule {}
