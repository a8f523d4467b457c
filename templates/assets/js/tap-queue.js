// Taps that were made and not yet taken by the server, kept on the phone in the order they were made.
// Every tap goes through here, with or without a network: it is written down first and sent then, under a key of its own,
// so that what arrives twice counts once.
const place = 'bastings-taps';
const offsets = new Map();
let underway;

const read = () => {
  try {
    return JSON.parse(localStorage.getItem(place)) ?? [];
  } catch {
    return [];
  }
};

const write = (taps) => {
  localStorage.setItem(place, JSON.stringify(taps));
  window.dispatchEvent(new CustomEvent('taps:changed'));
};

// The phone's own clock may be wrong: what counts is the server's, as it stood when the page was drawn.
export const serverTime = (drawnAt) => {
  if (!offsets.has(drawnAt)) offsets.set(drawnAt, Date.parse(drawnAt) - Date.now());
  return Date.now() + offsets.get(drawnAt);
};

// crypto.randomUUID is missing where a home network has no TLS.
const newKey = () =>
  [...crypto.getRandomValues(new Uint8Array(16))].map((byte) => byte.toString(16).padStart(2, '0')).join('');

export const tapsOf = (who) => read().filter((tap) => tap.who === who);
export const othersWait = (who) => read().some((tap) => tap.who !== who && !tap.refused);

export const keep = (tap) => {
  const kept = { ...tap, key: newKey() };
  write([...read(), kept]);
  return kept;
};

export const forgetRefused = (who) => write(read().filter((tap) => !(tap.refused && tap.who === who)));

const settle = (key, refused) =>
  write(read().flatMap((tap) => (tap.key !== key ? [tap] : refused ? [{ ...tap, refused }] : [])));

const send = (tap) =>
  fetch(tap.url, {
    method: 'POST',
    headers: { 'Content-Type': 'application/json', Accept: 'application/json', 'Idempotency-Key': tap.key },
    body: JSON.stringify(tap.body),
  });

const waits = (status) =>
  status >= 500 || status === 401 || status === 403 || status === 429 || status === 408;

const deliverAll = async (who) => {
  let taken = 0;
  for (;;) {
    const tap = tapsOf(who).find((one) => !one.refused);
    if (!tap) return { taken, why: '' };
    let answer;
    try {
      answer = await send(tap);
    } catch {
      return { taken, why: 'away' };
    }
    if (answer.ok) {
      settle(tap.key);
      taken += 1;
    } else if (waits(answer.status)) {
      return { taken, why: answer.status === 401 || answer.status === 403 ? 'signed-out' : 'away' };
    } else {
      const problem = await answer.json().catch(() => ({}));
      if (problem.code === 'already-done') {
        settle(tap.key);
        taken += 1;
        continue;
      }
      const said = problem.errors?.[0]?.detail ?? problem.detail;
      settle(tap.key, said ?? problem.title ?? 'It was not taken.');
    }
  }
};

// One delivery at a time, in the order the taps were made; it stops at the first that finds no network.
export const deliver = (who) => {
  underway ??= deliverAll(who).finally(() => {
    underway = undefined;
  });
  return underway;
};
