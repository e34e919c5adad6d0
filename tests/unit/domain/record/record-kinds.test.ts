import fs from 'node:fs'
import path from 'node:path'
import { describe, expect, it } from 'vitest'
import { RecordKind } from '../../../../server/contract/record/record.ts'
import { firstWordsOf } from '../../../../server/domain/record/record-kinds.ts'
import { formatAction } from '../../../../web/domain/record/format-record.ts'

const server = path.join(import.meta.dirname, '../../../../server')
/** Beside the use cases lie what is generated, and what runs the process. */
const ELSEWHERE = /^(db|process|archive|files|config)\//

/** Every action that a use case puts on record, as it stands in its source. */
const actions = [
  ...new Set(
    fs
      .readdirSync(server, { recursive: true, encoding: 'utf8' })
      .filter((file) => file.endsWith('.ts') && !ELSEWHERE.test(file))
      .flatMap((file) => [...fs.readFileSync(path.join(server, file), 'utf8').matchAll(/'([a-z-]+\.[a-z-]+)'/g)])
      .map(([, action]) => action!)
      .filter((action) => !/\.(js|json|html|tar|gz|ics)$/.test(action)),
  ),
]

describe('every action on record', () => {
  it('is among those found in the source', () => {
    expect(actions).toEqual(expect.arrayContaining(['sheet.submitted', 'session.opened', 'booking.added']))
  })

  it.each(actions)('%s has one kind by which it is found, and words of its own', (action) => {
    expect(RecordKind.options.filter((kind) => firstWordsOf(kind).includes(action.split('.')[0]!))).toHaveLength(1)
    expect(formatAction(action)).not.toBe(action.replace(/[.-]/g, ' '))
  })
})
