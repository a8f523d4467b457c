const WITHIN_COMMISSIONS: Readonly<Record<string, string>> = { garment: 'garments', fitting: 'fittings' };
const ALONE: Readonly<Record<string, string>> = {
  clients: '/clients',
  payments: '/papers/payments',
  rates: '/rates',
  house: '/house',
  bench: '/bench',
  promises: '/bench/promises',
  'garment-type': '/house/making',
  making: '/house/making',
  'past garment': '/lessons',
  lessons: '/lessons',
  'price-list': '/rates/price-list',
  person: '/house/people',
  phone: '/house/people',
  account: '/house/people',
  token: '/house/people-and-devices',
  thread: '/cloth-room/thread',
};
const IN_THE_CLOTH_ROOM = ['material', 'lot', 'supplier', 'purchase'];

/**
 * The page of what a path names, where it has one: `client/1` is at `/clients/1`, `commission/1/garment/2` at
 * `/commissions/1/garments/2`.
 */
export const subjectUrl = (about: string): string | undefined => {
  const [kind, id, part, partId] = about
    .split('/')
    .map((step, place) => (place === 1 || place === 3 ? encodeURIComponent(step) : step));
  if (kind === 'client' && id && part === 'pattern' && partId) return `/clients/${id}/patterns/${partId}`;
  if ((kind === 'client' || kind === 'paper') && id) return `/${kind}s/${id}`;
  if (kind === 'handbook' && id) return `/help/${id}`;
  if (kind === 'enquiry' && id) return `/clients/enquiries/${id}`;
  if (kind === 'counter' && id) return `/bench/counter/${id}`;
  if (kind === 'outwork' && id) return `/bench/outwork/${id}`;
  if (kind === 'outworker' && id) return `/bench/outwork/workers/${id}`;
  if (kind === 'money-out' && id) return `/papers/money-out/${id}`;
  if (kind === 'sent-back' && id) return `/cloth-room/movements/${id}`;
  if (kind === 'payment' && id) return `/papers/payments/${id}`;
  if (kind === 'commission' && id) {
    const parts =
      part && partId && Object.hasOwn(WITHIN_COMMISSIONS, part) ? WITHIN_COMMISSIONS[part] : undefined;
    return parts ? `/commissions/${id}/${parts}/${partId}` : `/commissions/${id}`;
  }
  if (kind && id && IN_THE_CLOTH_ROOM.includes(kind)) return `/cloth-room/${kind}s/${id}`;
  return kind && Object.hasOwn(ALONE, kind) ? ALONE[kind] : undefined;
};
