/** Orders by post: from an order's arrival to "it has come". */
import { CONTRACT, definePlugin } from '../../server/contract/plugin.ts';
import * as changing from './commands/changing.ts';
import * as downloads from './commands/downloads.ts';
import * as items from './commands/items.ts';
import * as keeping from './commands/keeping.ts';
import { packParcel, unpackParcel } from './commands/packing.ts';
import { placeOrder } from './commands/placing.ts';
import * as posting from './commands/posting.ts';
import { setShop, writeTariff } from './commands/shop.ts';
import { concerning } from './concerning.ts';
import { shopEvents } from './events.ts';
import { fetchOrders } from './feed/orders.ts';
import { assumeArrived, fetchTracking } from './feed/tracking.ts';
import * as handouts from './handouts.ts';
import { ordersFile } from './incoming/plan.ts';
import { orderList } from './order-list.ts';
import { customs } from './papers/customs.ts';
import { labels } from './papers/labels.ts';
import { packingSlip } from './papers/packing-slip.ts';
import * as lists from './projections.ts';
import { buyersPictures } from './reports/buyers-pictures.ts';
import { fulfilment } from './reports/fulfilment.ts';
import { inThePost } from './reports/in-the-post.ts';
import * as shopLists from './reports/lists.ts';
import { message } from './reports/message.ts';
import { postageReport, salesReport } from './reports/money.ts';
import { months } from './reports/months.ts';
import { order } from './reports/order.ts';
import { parcel } from './reports/parcel.ts';
import { parcelsReport } from './reports/parcels.ts';
import { reorder } from './reports/reorder.ts';
import { today } from './reports/today.ts';
import { dates, waiting } from './reports/waiting.ts';
import { itemKind } from './state/item.ts';
import { orderKind } from './state/order.ts';
import { parcelKind } from './state/parcel.ts';
import { downloadKind, shopKind, tariffKind } from './state/shop.ts';

export default definePlugin({
  id: 'shop-orders',
  contract: CONTRACT,
  about: 'Orders by post: stock, parcels, postage and customs, and whether they came in time.',
  needs: ['studio'],
  prefixes: ['item', 'stock', 'order', 'parcel', 'tariff', 'shop', 'download'],
  events: shopEvents,
  streams: [itemKind, orderKind, parcelKind, tariffKind, shopKind, downloadKind],
  commands: {
    'item.add': items.addItem,
    'item.change': items.changeItem,
    'item.give-file': items.giveFile,
    'stock.print': items.printStock,
    'stock.make': items.makeStock,
    'stock.break': items.breakStock,
    'stock.count': items.countStock,
    'order.place': placeOrder,
    'order.change': changing.changeOrder,
    'order.note-change': changing.changeCame,
    'order.accept-change': changing.acceptChange,
    'order.decline-change': changing.declineChange,
    'order.cancel': changing.cancelOrder,
    'order.replace': posting.replaceOrder,
    'order.refund': posting.refundOrder,
    'order.note': keeping.noteOrder,
    'order.tell': keeping.tellBuyer,
    'order.keep-picture': keeping.keepPicture,
    'parcel.pack': packParcel,
    'parcel.unpack': unpackParcel,
    'parcel.post': posting.postParcel,
    'parcel.track': posting.trackParcel,
    'parcel.arrive': posting.arriveParcel,
    'parcel.assume-arrived': posting.assumeArrived,
    'parcel.give-time': posting.giveTime,
    'parcel.lose': posting.loseParcel,
    'parcel.come-back': posting.comeBackParcel,
    'tariff.write': writeTariff,
    'shop.set': setShop,
    'download.grant': downloads.grantDownload,
    'download.hand-out': downloads.handOut,
    'download.withdraw': downloads.withdrawDownload,
  },
  projections: {
    orders: orderList,
    parcels: lists.parcelList,
    items: lists.itemList,
    tariffs: lists.tariffList,
    shop: lists.shopList,
    downloads: lists.downloadList,
  },
  reports: {
    today,
    fulfilment,
    'in-the-post': inThePost,
    reorder,
    order,
    parcel,
    items: shopLists.items,
    item: shopLists.item,
    orders: shopLists.orders,
    packed: shopLists.packed,
    shop: shopLists.shop,
    months,
    sales: salesReport,
    postage: postageReport,
    parcels: parcelsReport,
    message,
    'buyers-pictures': buyersPictures,
    waiting,
    dates,
  },
  papers: { 'packing-slip': packingSlip, 'address-labels': labels, customs },
  imports: { orders: ordersFile },
  jobs: { 'fetch-orders': fetchOrders, 'fetch-tracking': fetchTracking, 'assume-arrived': assumeArrived },
  handouts,
  wants: ['requests', 'secrets', 'files'],
  concerning,
});
