import type pg from 'pg'
import { countStatement, countValues } from './hand-written/count.ts'
import { recordStatement, recordValues } from './hand-written/record.ts'
import { sheetStatement, sheetValues } from './hand-written/sheet.ts'
import type { PreparedSheet } from './prepared-sheet.ts'

/** What one hand-written transaction is given: the statements' values, ready to be sent. */
export interface HandWrittenSheet {
  readonly sheet: unknown[]
  readonly count: unknown[] | null
  readonly record: unknown[]
}

/** Works out the values of all statements, before anything is timed. */
export function valuesOf(prepared: PreparedSheet, account: { id: string; name: string }): HandWrittenSheet {
  return {
    sheet: sheetValues(prepared, account.id),
    count: prepared.contribution && countValues(prepared.contribution),
    record: recordValues(prepared, account),
  }
}

/** Writes what the product writes for one sheet: in one transaction of three prepared statements. */
export async function storeByHand(pool: pg.Pool, values: HandWrittenSheet): Promise<void> {
  const client = await pool.connect()
  try {
    await client.query('BEGIN')
    await client.query({ name: 'sheet', text: sheetStatement, values: values.sheet })
    if (values.count) await client.query({ name: 'count', text: countStatement, values: values.count })
    await client.query({ name: 'record', text: recordStatement, values: values.record })
    await client.query('COMMIT')
  } catch (error) {
    await client.query('ROLLBACK')
    throw error
  } finally {
    client.release()
  }
}
