import { expect, test } from 'vitest'
import { readStandard } from '../../../seed/catalogue/read-standard.ts'
import { withoutDecided } from '../../../seed/generate/marks/cut-short.ts'
import { observe } from '../../../seed/generate/marks/observe.ts'
import { perform } from '../../../seed/generate/marks/perform.ts'
import { marksOf, toScored } from '../../../seed/generate/marks/test-course.ts'
import { miswrite } from '../../../seed/generate/program/miswrite.ts'
import { createRandom } from '../../../seed/generate/random.ts'
import { SheetBody } from '../../../server/contract/sheets/sheets.ts'
import { findMalformed } from '../../../server/domain/scoring/find-malformed.ts'
import { scoreSheet } from '../../../server/domain/scoring/score-sheet.ts'

const standard = readStandard('rifle-standing')
const scored = toScored(standard)
const SOME_ID = '00000000-0000-4000-8000-000000000000'

test('a miswritten sheet is another one that still ends, well formed, also where third trials were left out', () => {
  const random = createRandom(5)
  const reasons = new Set<string>()
  for (let run = 0; run < 400; run++) {
    const performance = perform(random, standard, () => 0.8, new Map())
    const seen = observe(random, standard, performance, { overlooks: 0.1, imagines: 0.1 })
    const right = SheetBody.parse({
      standard: standard.code,
      standardVersion: 1,
      arm: 'rifle',
      candidateId: SOME_ID,
      graderId: SOME_ID,
      startedAt: '2026-03-02T09:00:00-05:00',
      finishedAt: '2026-03-02T09:30:00-05:00',
      ...marksOf(standard, { kind: 'completed' }, withoutDecided(standard, seen)),
    })
    const { body, reason } = miswrite(random, right)
    expect(body).not.toEqual(right)
    expect(body.minors.filter((minor, index) => minor !== right.minors[index])).toHaveLength(1)
    expect(findMalformed(scored, body)).toEqual([])
    expect(scoreSheet(scored, body).ending).toBe('completed')
    reasons.add(reason.split(' ')[0]!)
  }
  expect(reasons).toEqual(new Set(['Point', 'Trial']))
})
