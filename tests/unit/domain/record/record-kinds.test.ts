import fs from 'node:fs'
import path from 'node:path'
import { describe, expect, it } from 'vitest'
import { RecordKind } from '../../../../server/contract/record/record.ts'
import { RECORD_KINDS, recordKindOf } from '../../../../server/domain/record/record-kinds.ts'
import { sayAction } from '../../../../web/domain/record/say-record.ts'

const services = path.join(import.meta.dirname, '../../../../server/services')

/** Every action that a use case puts on record, as it stands in its source. */
const actions = [
  ...new Set(
    fs
      .readdirSync(services, { recursive: true, encoding: 'utf8' })
      .filter((file) => file.endsWith('.ts'))
      .flatMap((file) => [...fs.readFileSync(path.join(services, file), 'utf8').matchAll(/'([a-z-]+\.[a-z-]+)'/g)])
      .map(([, action]) => action!)
      .filter((action) => !action.endsWith('.js')),
  ),
]

describe('the kinds of the record', () => {
  it('are those that can be asked for', () => expect(RECORD_KINDS).toEqual(RecordKind.options))
})

describe('every action on record', () => {
  it('is among those found in the source', () => {
    expect(actions).toEqual(expect.arrayContaining(['sheet.submitted', 'session.opened', 'booking.added']))
  })

  it.each(actions)('%s has a kind by which it is found, and words of its own', (action) => {
    expect(recordKindOf(action)).toBeDefined()
    expect(sayAction(action)).not.toBe(action.replace(/[.-]/g, ' '))
  })
})
