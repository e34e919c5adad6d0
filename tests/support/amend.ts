import { expect } from 'vitest'
import type { SheetDetail, StoredSheet } from '../../server/contract/sheets/sheets.ts'
import { SheetBody } from '../../server/contract/sheets/sheets.ts'
import type { Client } from './client.ts'
import type { SheetInput } from './sheet-body.ts'

/** Amends a sheet and, where the amendment takes a second person, has that one confirm it. Out: how the sheet stands. */
export async function amend(office: Client, second: Client, id: string, sheet: SheetInput): Promise<StoredSheet> {
  const amendment = { reason: 'Misread the paper', sheet }
  const { status, body } = await office.tries('POST', `/api/sheets/${id}/amendments`, amendment)
  expect(status, JSON.stringify(body)).toBeOneOf([200, 202])
  if (status === 200) return body as StoredSheet
  const proposal = (body as { id: string }).id
  return second.post(`/api/amendments/${proposal}/decision`, { decision: 'confirm', reason: 'Compared' }, 200)
}

/** What a sheet says in its revision in force. */
export async function readBody(client: Client, id: string): Promise<SheetInput> {
  const detail = await client.get<SheetDetail>(`/api/sheets/${id}`)
  const fields = Object.keys(SheetBody.shape)
  return Object.fromEntries(Object.entries(detail).filter(([field]) => fields.includes(field))) as SheetInput
}
