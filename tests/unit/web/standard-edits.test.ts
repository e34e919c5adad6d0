import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { StandardBody } from '../../../server/contract/standards/standards.ts'
import { checkDefinition } from '../../../server/domain/standards/check-definition.ts'
import { codeFor } from '../../../server/domain/standards/code-for.ts'
import { definitionStamp } from '../../../server/domain/standards/definition-stamp.ts'
import { arranged, fittingCalls, moveCall } from '../../../web/domain/standards/edits/call-order.ts'
import { allSaying, byArm, forAllArms, saidByAll, saying } from '../../../web/domain/standards/edits/call-said.ts'
import { addGauge, changeGauge, faultsForGauge, removeGauge } from '../../../web/domain/standards/edits/gauge-edits.ts'
import { begun, changed, redone, undone } from '../../../web/domain/standards/edits/history.ts'
import { movedTo } from '../../../web/domain/standards/edits/list-edits.ts'
import {
  addMeasure,
  changeMinor,
  moveMeasure,
  removeMeasure,
  withFittingCalls,
} from '../../../web/domain/standards/edits/measure-edits.ts'
import { namedLines } from '../../../web/domain/standards/edits/named-lines.ts'
import {
  readChecks,
  readReference,
  writeCheck,
  writeReference,
} from '../../../web/domain/standards/edits/written-lines.ts'
import { shortStandard } from '../../support/sheet-body.ts'

const SHORT = withFittingCalls(StandardBody.parse(shortStandard({ code: 'short' })))
const CODES = SHORT.minors.map(({ code }) => code)
const SEEDED = { seed: 20261130, numRuns: 200 }

type Edit = (draft: StandardBody) => StandardBody

/** Any edit that the page makes, and the fields of the draft that it may touch. */
const anEdit: fc.Arbitrary<{ edit: Edit; touches: (keyof StandardBody)[] }> = fc.oneof(
  fc.string({ minLength: 1, maxLength: 12 }).map((title) => ({
    edit: (draft: StandardBody) => addMeasure(draft, 'minors', title).draft,
    touches: ['minors', 'calls'] as (keyof StandardBody)[],
  })),
  fc.string({ minLength: 1, maxLength: 12 }).map((title) => ({
    edit: (draft: StandardBody) => addMeasure(draft, 'majors', title).draft,
    touches: ['majors'] as (keyof StandardBody)[],
  })),
  fc.nat(9).map((at) => ({
    edit: (draft: StandardBody) =>
      draft.minors.length > 1 ? removeMeasure(draft, 'minors', draft.minors[at % draft.minors.length]!.code) : draft,
    touches: ['minors', 'calls'] as (keyof StandardBody)[],
  })),
  fc.tuple(fc.nat(9), fc.integer({ min: -5, max: 5 })).map(([at, by]) => ({
    edit: (draft: StandardBody) => moveMeasure(draft, 'minors', draft.minors[at % draft.minors.length]!.code, by),
    touches: ['minors'] as (keyof StandardBody)[],
  })),
  fc.tuple(fc.nat(99), fc.nat(99)).map(([from, to]) => ({
    edit: (draft: StandardBody) => ({
      ...draft,
      calls: moveCall(draft.calls, from % draft.calls.length, to % draft.calls.length),
    }),
    touches: ['calls'] as (keyof StandardBody)[],
  })),
  fc.tuple(fc.constantFrom('running', 'pairs', 'unbroken'), fc.nat(9), fc.nat(9)).map(([pattern, one, other]) => ({
    edit: (draft: StandardBody) => {
      const codes = [one, other].map((at) => draft.minors[at % draft.minors.length]!.code)
      return { ...draft, calls: arranged(draft.calls, [...new Set(codes)], pattern as 'pairs') }
    },
    touches: ['calls'] as (keyof StandardBody)[],
  })),
  fc.integer({ min: 1, max: 9 }).map((trials) => ({
    edit: (draft: StandardBody) => withFittingCalls({ ...draft, rule: { ...draft.rule, trials, needed: 1 } }),
    touches: ['rule', 'calls'] as (keyof StandardBody)[],
  })),
  fc.constant({
    edit: (draft: StandardBody) => addGauge(draft, 'Slant'),
    touches: ['gauges'] as (keyof StandardBody)[],
  }),
  fc.nat(9).map((at) => ({
    edit: (draft: StandardBody) =>
      draft.gauges.length > 0 ? removeGauge(draft, draft.gauges[at % draft.gauges.length]!.code) : draft,
    touches: ['gauges', 'minors'] as (keyof StandardBody)[],
  })),
)

describe('any edits of a draft', () => {
  it('leave it sound, touch nothing else, and are taken back step by step', () => {
    fc.assert(
      fc.property(fc.array(anEdit, { maxLength: 12 }), (edits) => {
        let history = begun(SHORT)
        const drafts: StandardBody[] = [SHORT]
        for (const { edit, touches } of edits) {
          const before = history.present
          const after = edit(before)
          for (const field of Object.keys(before) as (keyof StandardBody)[]) {
            if (!touches.includes(field)) expect(after[field]).toBe(before[field])
          }
          expect(checkDefinition(after)).toEqual([])
          history = changed(history, after)
          if (after !== before) drafts.push(after)
        }
        for (const draft of [...drafts].reverse()) {
          expect(history.present).toBe(draft)
          history = undone(history)
        }
        expect(history.present).toBe(SHORT)
        for (let step = 1; step < drafts.length; step++) history = redone(history)
        expect(history.present).toBe(drafts.at(-1))
      }),
      SEEDED,
    )
  })

  it('of calls keep every call with its words', () => {
    const calls = SHORT.calls.map((call, at) => ({ ...call, from: `place ${at}` }))
    const words = (list: StandardBody['calls']) => list.map(({ measure, from }) => `${measure} ${from}`).sort()
    fc.assert(
      fc.property(fc.nat(8), fc.nat(8), fc.subarray(CODES, { minLength: 1 }), (from, to, measures) => {
        expect(words(moveCall(calls, from, to))).toEqual(words(calls))
        for (const pattern of ['running', 'pairs', 'unbroken'] as const) {
          expect(words(arranged(calls, measures, pattern))).toEqual(words(calls))
        }
      }),
      SEEDED,
    )
  })
})

describe('one step', () => {
  it('is all that is typed into one field, and a change after an undo drops what was taken back', () => {
    const typed = ['D', 'Dr', 'Dra'].reduce((history, text) => changed(history, text, 'title'), begun(''))
    expect(undone(typed)).toMatchObject({ present: '', future: ['Dra'] })
    expect(changed(undone(typed), 'X', 'title')).toMatchObject({ past: [''], present: 'X', future: [] })
    expect(undone(begun('a'))).toMatchObject({ present: 'a' })
  })
})

describe('the order of calls', () => {
  const order = (calls: StandardBody['calls']) => calls.map(({ measure, trial }) => `${measure} ${trial}`)
  const [one = '', two = '', three = ''] = CODES

  it('goes by pattern, from where the first of the measures was', () => {
    expect(order(arranged(SHORT.calls, [two, three], 'pairs')).slice(3)).toEqual(
      [1, 2, 3].flatMap((trial) => [`${two} ${trial}`, `${three} ${trial}`]),
    )
    const run = arranged(SHORT.calls, [one], 'unbroken').slice(0, 3)
    expect(run.map(({ unbroken, readable }) => [unbroken, readable])).toEqual([
      [one, false],
      [one, false],
      [one, true],
    ])
    const back = arranged(arranged(SHORT.calls, [one, two], 'unbroken'), [one, two], 'running')
    expect(back).toEqual(SHORT.calls)
  })

  it('counts trials up again where a call passes another one of its measure', () => {
    expect(order(moveCall(SHORT.calls, 0, 8)).at(-1)).toBe(`${one} 3`)
    expect(order(moveCall(SHORT.calls, 0, 8))[0]).toBe(`${one} 1`)
  })

  it('gives a trial more the words of the one before it', () => {
    const calls = allSaying(SHORT.calls, one, { preparatory: 'Draw' })
    const rule = { ...SHORT.rule, trials: 5 }
    const five = fittingCalls({ ...SHORT, rule, calls }).filter(({ measure }) => measure === one)
    expect(five.map(({ trial, preparatory }) => `${trial} ${preparatory}`)).toEqual(
      [1, 2, 3, 4, 5].map((n) => `${n} Draw`),
    )
  })
})

describe('what is said at calls', () => {
  const one = CODES[0]!

  it('goes for all calls of a measure, and says where they differ', () => {
    const calls = allSaying(SHORT.calls, one, { from: 'carry', execution: 'ARMS', finish: ['Order, ARMS'] })
    expect(saidByAll(calls, one)).toMatchObject({ said: { from: 'carry', execution: 'ARMS' }, differ: [] })
    const other = calls.map((call, at) => (at === 0 ? saying(call, { finish: [], from: '' }) : call))
    expect(other[0]).toEqual({ ...SHORT.calls[0], execution: 'ARMS' })
    expect(saidByAll(other, one).differ).toEqual(['from', 'finish'])
  })

  it('is one word for all arms, or one for each', () => {
    expect(byArm('ARMS', ['sword', 'saber'])).toEqual({ sword: 'ARMS', saber: 'ARMS' })
    expect(byArm({ sword: 'SWORD' }, ['sword', 'saber'])).toEqual({ sword: 'SWORD', saber: '' })
    expect(forAllArms({ sword: '', saber: 'SABER' })).toBe('SABER')
  })
})

describe('lists written line by line', () => {
  const BEFORE = [
    { code: 'a', title: 'Elbow bent', kept: 1 },
    { code: 'b', title: 'Head moved', kept: 2 },
    { code: 'c', title: 'Too slow', kept: 3 },
  ]

  it('keep what was not changed, whatever is put between, taken out or put in another order', () => {
    const line = fc.constantFrom('New one', 'Another', ...BEFORE.map(({ title }) => title))
    fc.assert(
      fc.property(fc.array(line, { maxLength: 8 }), (lines) => {
        const after = namedLines(BEFORE, lines)
        expect(after.map(({ title }) => title)).toEqual(lines)
        expect(new Set(after.map(({ code }) => code)).size).toBe(after.length)
        for (const item of BEFORE) if (lines.includes(item.title)) expect(after).toContainEqual(item)
      }),
      SEEDED,
    )
  })

  it('keep the code of a line that is written otherwise, and find one for a new line', () => {
    expect(namedLines(BEFORE, ['Elbow bent', 'Head turned', 'Too slow'])[1]).toEqual({
      code: 'b',
      title: 'Head turned',
      kept: 2,
    })
    expect(namedLines(BEFORE, ['Elbow bent', 'Eyes', 'Head moved', 'Too slow'])[1]).toEqual({
      code: 'eyes',
      title: 'Eyes',
    })
  })

  it('of checks say for which arm one is, and otherwise leave a colon alone', () => {
    const read = readChecks([], ['Saber: three fingers', 'Count: two', 'level'], ['sword', 'saber'])
    expect(read).toEqual([
      { code: 'three-fingers', title: 'three fingers', kind: 'fits', arm: 'saber' },
      { code: 'count-two', title: 'Count: two', kind: 'fits' },
      { code: 'level', title: 'level', kind: 'fits' },
    ])
    expect(readChecks(read, read.map(writeCheck), ['sword', 'saber'])).toEqual(read)
  })

  it('of references have the edition after the last semicolon', () => {
    const text = fc.string({ maxLength: 20 }).map((one) => one.replace(/\s+/g, ' ').trim())
    fc.assert(
      fc.property(
        text.filter((title) => title !== ''),
        text.map((edition) => edition.replaceAll(';', ',')),
        (title, edition) => {
          expect(readReference(writeReference({ title, edition }))).toEqual({ title, edition })
        },
      ),
      SEEDED,
    )
  })
})

describe('gauges', () => {
  it('offer the faults of the measures that are read with them', () => {
    const [gauge] = SHORT.gauges
    const reading = SHORT.minors.filter(({ gauges }) => gauges.includes(gauge!.code))
    expect(faultsForGauge(SHORT, gauge!.code)).toEqual(reading.flatMap(({ faults }) => faults))
    expect(changeGauge(SHORT, gauge!.code, { unit: 'cm' }).gauges[0]).toEqual({ ...gauge, unit: 'cm' })
    expect(changeMinor(SHORT, CODES[0]!, { counts: 4 }).minors[0]!.counts).toBe(4)
  })
})

describe('codes, places and stamps', () => {
  it('are found, kept and told apart', () => {
    expect(codeFor('Présent, from order!', [])).toBe('present-from-order')
    expect(codeFor('Halt', ['halt', 'halt-2'])).toBe('halt-3')
    expect(codeFor('…', [])).toBe('new')
    expect(movedTo(['a', 'b', 'c'], 2, 1)).toEqual(['a', 'c', 'b'])
    expect(movedTo(['a', 'b', 'c'], 0, -1)).toEqual(['a', 'b', 'c'])
    const { title, ...rest } = SHORT
    expect(definitionStamp({ ...rest, title })).toBe(definitionStamp(SHORT))
    expect(definitionStamp({ ...SHORT, title: 'Other' })).not.toBe(definitionStamp(SHORT))
  })
})
