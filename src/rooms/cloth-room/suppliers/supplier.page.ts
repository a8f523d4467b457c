import type { Supplier } from '../../../domain/stock/material.js';
import type { FormModel } from '../../../printing/templates/page-model.js';
import type { PageWords } from '../../../web/reply.js';
import { clothRoomCrumb, supplierUrl } from '../cloth-room.page.js';

const suppliersCrumb = { text: 'Suppliers', href: '/cloth-room/suppliers' };

/** Everybody cloth is bought from. */
export const suppliersPage = (suppliers: readonly Supplier[]): PageWords => ({
  title: 'Suppliers',
  room: 'cloth-room',
  crumbs: [clothRoomCrumb],
  any: suppliers.length > 0,
  suppliers: {
    caption: 'Suppliers by name',
    quietCaption: true,
    columns: [{ text: 'Name' }, { text: 'Reached at' }],
    rows: suppliers.map((one) => ({
      cells: [{ text: one.name, href: supplierUrl(one.id) }, { text: one.phone || one.email }],
    })),
  },
});

/** The form for a new supplier, or to correct one. */
export const supplierFormPage = (
  form: FormModel,
  supplier?: Supplier,
): { template: string; words: PageWords } => ({
  template: 'cloth-room/suppliers/supplier-form',
  words: {
    title: supplier ? supplier.name : 'New supplier',
    room: 'cloth-room',
    crumbs: [clothRoomCrumb, suppliersCrumb],
    form: { ...form, action: supplier ? supplierUrl(supplier.id) : '/cloth-room/suppliers' },
    leave: { text: 'Leave without saving', href: '/cloth-room/suppliers' },
    bought: supplier ? `/cloth-room/purchases?supplier=${supplier.id}` : '',
  },
});
