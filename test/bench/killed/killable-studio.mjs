/**
 * Fills an opened studio with what a killed server is tried on, through the JSON interface.
 *
 * @param ask method, path, body → status and JSON
 * @returns the client, the garment, the material, how much of it there is, and a thread that runs out
 */
export async function fillKillable(ask) {
  const made = async (path, body) => {
    const { status, json } = await ask('POST', path, body);
    if (status !== 201) throw new Error(`${path} answered ${status}: ${JSON.stringify(json)}`);
    return json;
  };
  const client = await made('/api/clients', { name: 'Corvin Haddlestone' });
  const commission = await made('/api/commissions', {
    clientId: client.id,
    title: 'A waistcoat',
    garments: [{ typeId: 'waistcoat', name: 'Waistcoat', make: 'all-hand' }],
  });
  const garments = (await ask('GET', `/api/commissions/${commission.id}/garments`)).json.items;
  const bought = 10;
  const material = await made('/api/materials', {
    name: 'Silk twist',
    kind: 'thread',
    unit: 'm',
    method: 'first-in-first-out',
  });
  await made('/api/lots', { materialId: material.id, origin: 'stash', quantity: String(bought) });
  const short = await made('/api/materials', {
    name: 'Buttonhole gimp',
    kind: 'thread',
    unit: 'm',
    method: 'first-in-first-out',
  });
  await made('/api/lots', { materialId: short.id, origin: 'stash', quantity: '0.2' });
  return {
    client: client.id,
    thread: { id: short.id, bought: 0.2 },
    garment: garments[0].id,
    material: material.id,
    bought,
  };
}
