/**
 * The page of what a path names, where it has one: `client/1` is at `/clients/1`, `commission/1/garment/2` at
 * `/commissions/1/garments/2`.
 */
export const subjectUrl = (about: string): string | undefined => {
  const [kind, id, part, partId] = about.split('/').map(encodeURIComponent);
  if (kind === 'client' && id) return `/clients/${id}`;
  if (kind === 'commission' && id)
    return part === 'garment' && partId ? `/commissions/${id}/garments/${partId}` : `/commissions/${id}`;
  if (kind === 'quote' && id) return `/papers/${id}`;
  return kind === 'rates' || kind === 'house' ? `/${kind}` : undefined;
};
