import { useEffect } from 'preact/hooks';
import { ErrorBoundary, LocationProvider, lazy, Route, Router, useLocation } from 'preact-iso';
import { ask, send } from '../api/client.ts';
import { followLog } from '../api/fresh.ts';
import { whenIdle } from '../api/idle.ts';
import { followReach, startOffline } from '../api/offline.ts';
import { done, screenChanged } from '../api/orders.ts';
import { signedOut } from '../api/signed-out.ts';
import { Patterns } from '../look/patterns.tsx';
import { askSession } from '../network/session.ts';
import { useNotices } from '../notices/notices.ts';
// The first screen comes with the page; the others when they are gone to.
import Today from '../today/today.tsx';
import { shell } from '../words/shell.ts';
import { said } from './announce.ts';
import { Catch } from './catch.tsx';
import { DoneLine } from './done.tsx';
import { useHabits } from './habits.ts';
import { useKeys } from './keys.ts';
import { NotFound } from './not-found.tsx';
import { Head, Places } from './places.tsx';
import { WaitingLine } from './waiting-line.tsx';

const Ware = lazy(() => import('../ware/ware.tsx'));
const Begin = lazy(() => import('../ware/begin.tsx'));
const Wall = lazy(() => import('../pictures/wall.tsx'));
const Piece = lazy(() => import('../piece/piece.tsx'));
const Move = lazy(() => import('../piece/move.tsx'));
const Kilns = lazy(() => import('../kilns/kilns.tsx'));
const Pack = lazy(() => import('../kilns/pack.tsx'));
const Firing = lazy(() => import('../kilns/firing.tsx'));
const Draw = lazy(() => import('../kilns/draw/draw.tsx'));
const Post = lazy(() => import('../post/post.tsx'));
const Posting = lazy(() => import('../post/posting.tsx'));
const NewOrder = lazy(() => import('../post/new-order.tsx'));
const BringIn = lazy(() => import('../post/bring-in.tsx'));
const Orders = lazy(() => import('../post/orders.tsx'));
const Order = lazy(() => import('../post/order.tsx'));
const Parcel = lazy(() => import('../post/parcel.tsx'));
const Items = lazy(() => import('../post/items.tsx'));
const Item = lazy(() => import('../post/item.tsx'));
const Tariff = lazy(() => import('../post/tariff.tsx'));
const Labels = lazy(() => import('../post/labels.tsx'));
const Shop = lazy(() => import('../post/shop.tsx'));
const Links = lazy(() => import('../post/links-page.tsx'));
const Review = lazy(() => import('../review/review.tsx'));
const Report = lazy(() => import('../review/report.tsx'));
const FaultGuide = lazy(() => import('../guide/fault-guide.tsx'));
const Year = lazy(() => import('../review/year.tsx'));
const Log = lazy(() => import('../log/log.tsx'));
const Materials = lazy(() => import('../materials/materials.tsx'));
const People = lazy(() => import('../people/people.tsx'));
const Settings = lazy(() => import('../settings/settings.tsx'));
const ByItself = lazy(() => import('../settings/by-itself.tsx'));
const Phone = lazy(() => import('../network/phone.tsx'));
const SignIn = lazy(() => import('../network/sign-in.tsx'));
const Import = lazy(() => import('../import/import.tsx'));
const Find = lazy(() => import('../find/find-page.tsx'));
const Keys = lazy(() => import('./keys-page.tsx'));
const Templates = lazy(() => import('../templates/templates.tsx'));
const Unsent = lazy(() => import('../waiting/unsent-page.tsx'));
const Index = lazy(() => import('./index-page.tsx'));

function Screens() {
  const { path } = useLocation();
  useEffect(() => screenChanged(path), [path]);
  return (
    <Catch path={path}>
      <Router>
        <Route path="/" component={Today} />
        <Route path="/ware" component={Ware} />
        <Route path="/ware/begin" component={Begin} />
        <Route path="/ware/pictures" component={Wall} />
        <Route path="/ware/:piece" component={Piece} />
        <Route path="/ware/:piece/:move" component={Move} />
        <Route path="/kilns" component={Kilns} />
        <Route path="/kilns/pack" component={Pack} />
        <Route path="/kilns/:firing" component={Firing} />
        <Route path="/kilns/:firing/draw" component={Draw} />
        <Route path="/post" component={Post} />
        <Route path="/post/posting" component={Posting} />
        <Route path="/post/new" component={NewOrder} />
        <Route path="/post/import" component={BringIn} />
        <Route path="/post/orders" component={Orders} />
        <Route path="/post/orders/:shop/:number" component={Order} />
        <Route path="/post/parcels/:parcel" component={Parcel} />
        <Route path="/post/items" component={Items} />
        <Route path="/post/items/:item" component={Item} />
        <Route path="/post/tariff" component={Tariff} />
        <Route path="/post/labels" component={Labels} />
        <Route path="/post/shop" component={Shop} />
        <Route path="/post/links" component={Links} />
        <Route path="/review" component={Review} />
        <Route path="/review/seconds-tally/year" component={Year} />
        <Route path="/review/defect-rates/fault-guide" component={FaultGuide} />
        <Route path="/review/:plugin/:report" component={Report} />
        <Route path="/log" component={Log} />
        <Route path="/materials" component={Materials} />
        <Route path="/people" component={People} />
        <Route path="/settings" component={Settings} />
        <Route path="/settings/by-itself" component={ByItself} />
        <Route path="/settings/phone" component={Phone} />
        <Route path="/import" component={Import} />
        <Route path="/find" component={Find} />
        <Route path="/keys" component={Keys} />
        <Route path="/templates" component={Templates} />
        <Route path="/unsent" component={Unsent} />
        <Route path="/index" component={Index} />
        <Route default component={NotFound} />
      </Router>
    </Catch>
  );
}

/** Milliseconds until the first screen stands on a slow phone, too. */
const AHEAD = 6000;

/** The screens that are gone to most, one by one, once the first one stands and nothing else is to do. */
function fetchAhead() {
  let stopped = false;
  const fetchAll = async () => {
    for (const screen of [Ware, Piece, Kilns, Review]) {
      await whenIdle();
      if (stopped) return;
      await screen.preload();
    }
  };
  const later = setTimeout(() => void fetchAll().catch(() => {}), AHEAD);
  return () => {
    stopped = true;
    clearTimeout(later);
  };
}

/** Where what had the focus went with the action, the screen's title takes it. */
function keepFocus() {
  let first = true;
  return done.subscribe(() => {
    if (!first)
      requestAnimationFrame(() => {
        if (document.activeElement === document.body)
          document.querySelector('h1')?.focus({ preventScroll: true });
      });
    first = false;
  });
}

/** Work without the network is made ready once the first screen stands. */
function goOnOffline() {
  const stop = followReach();
  const later = setTimeout(() => void startOffline({ ask, send }), 1500);
  return () => {
    clearTimeout(later);
    stop();
  };
}

function Frame() {
  useHabits();
  useKeys();
  useNotices();
  const out = signedOut.value;
  useEffect(() => void askSession(), []);
  useEffect(() => (out ? undefined : followLog()), [out]);
  useEffect(fetchAhead, []);
  useEffect(goOnOffline, []);
  useEffect(keepFocus, []);
  return (
    <div class="frame">
      <a class="skip" href="#main">
        {shell.skip}
      </a>
      <Patterns />
      <Head />
      <Places />
      <WaitingLine />
      <main id="main" tabIndex={-1}>
        {out && (
          <ErrorBoundary>
            <SignIn />
          </ErrorBoundary>
        )}
        {/* What was being entered stays there behind the passphrase. */}
        <div hidden={out}>
          <Screens />
        </div>
      </main>
      <DoneLine />
      <p class="unseen" role="status" aria-live="polite">
        {said.value}
      </p>
    </div>
  );
}

export const App = () => (
  <LocationProvider scope={/^\/(?!api\/)/}>
    <Frame />
  </LocationProvider>
);
