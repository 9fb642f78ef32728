/** The first-party plugins, in the order they are loaded. Nothing else in server imports a plugin. */
import defectRates from '../plugins/defect-rates/index.ts';
import secondsTally from '../plugins/seconds-tally/index.ts';
import shopOrders from '../plugins/shop-orders/index.ts';
import templateSheets from '../plugins/template-sheets/index.ts';
import type { Plugin } from './contract/plugin.ts';
import { studio } from './studio/studio.ts';

export const PLUGINS: readonly Plugin[] = [studio, secondsTally, defectRates, shopOrders, templateSheets];
