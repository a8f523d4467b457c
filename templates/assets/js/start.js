// Everything here is comfort: each page works without it.
import { Application } from '../vendor/stimulus.js';
import '../vendor/turbo.js';
import { ErrorFocus } from './error-focus.js';
import { LiveSum } from './live-sum.js';
import { LookAgain } from './look-again.js';
import { NextRow } from './next-row.js';
import { OnePress } from './one-press.js';
import { ShortcutKeys } from './shortcut-keys.js';
import { Tap } from './tap.js';
import { TapsWaiting } from './taps-waiting.js';
import { Ticking } from './ticking.js';
import { TypeToFind } from './type-to-find.js';

const workroom = Application.start();
workroom.register('error-focus', ErrorFocus);
workroom.register('live-sum', LiveSum);
workroom.register('look-again', LookAgain);
workroom.register('next-row', NextRow);
workroom.register('one-press', OnePress);
workroom.register('shortcut-keys', ShortcutKeys);
workroom.register('tap', Tap);
workroom.register('taps-waiting', TapsWaiting);
workroom.register('ticking', Ticking);
workroom.register('type-to-find', TypeToFind);
