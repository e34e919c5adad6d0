import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import { type Standard, StandardBody } from '../../../server/contract/standards/standards.ts'
import { definitionStamp } from '../../../server/domain/standards/definition-stamp.ts'
import { ApiError } from '../../../web/api/errors.ts'
import { withFittingCalls } from '../../../web/domain/standards/edits/measure-edits.ts'
import { bodyOf, createDraftKeeper, type KeptDraft } from '../../../web/features/standards/editor/draft-keeper.ts'
import { draftProblems, problemAt } from '../../../web/features/standards/editor/draft-problems.ts'
import { partAt, partsOf, titleOfPart } from '../../../web/features/standards/editor/editing.ts'
import { shortStandard } from '../../support/sheet-body.ts'

const BODY = withFittingCalls(StandardBody.parse(shortStandard({ code: 'short' })))
const STORED: Standard = { ...BODY, id: 'a', publishedAt: null }

/** A server with one draft, which refuses who has not seen what it says, and a device. */
function places(stored = STORED) {
  const server = { draft: stored, sent: 0, isAway: false }
  const device: { left: KeptDraft | null } = { left: null }
  return {
    server,
    device,
    open: (left: KeptDraft | null = device.left) =>
      createDraftKeeper(server.draft, left, {
        keep: (draft) => {
          device.left = draft
        },
        send: async (body, seen) => {
          server.sent += 1
          if (server.isAway) throw new Error('No network.')
          if (seen !== definitionStamp(bodyOf(server.draft))) {
            const type = 'urn:reviewstand:problem:draft-changed'
            throw new ApiError({ type, title: 'Clash', status: 409, detail: 'Somebody else has changed it.' })
          }
          server.draft = { ...server.draft, ...body }
          return server.draft
        },
        onSaved: () => undefined,
      }),
  }
}

beforeEach(() => {
  vi.useFakeTimers()
})
afterEach(() => {
  vi.useRealTimers()
})
const pause = () => vi.advanceTimersByTimeAsync(1_000)
const titled = (title: string) => ({ ...BODY, title })

describe('a draft that is written', () => {
  it('is on the device at once and on the server after a pause, once for what was typed without one', async () => {
    const { server, device, open } = places()
    const keeper = open()
    for (const title of ['A', 'Ab', 'Abc']) keeper.edit(titled(title), 'title')
    expect(device.left?.body.title).toBe('Abc')
    expect(keeper.shown().kept).toBe('saving')
    await pause()
    expect(server).toMatchObject({ sent: 1, draft: { title: 'Abc' } })
    expect(keeper.shown().kept).toBe('saved')
    expect(device.left).toBeNull()
    keeper.undo()
    await pause()
    expect(server.draft.title).toBe(BODY.title)
    keeper.redo()
    await pause()
    expect(server.draft.title).toBe('Abc')
  })

  it('stays on the device while it is faulty, and goes on from there on the next visit', async () => {
    const { server, device, open } = places()
    const first = open()
    first.edit(titled(' '))
    await pause()
    expect(first.shown()).toMatchObject({ kept: 'faulty', problems: [{ pointer: '/title' }] })
    first.stop()
    expect(server.sent).toBe(0)
    const again = open(device.left)
    expect(again.shown().history.present.title).toBe(' ')
    again.undo()
    expect(again.shown().history.present).toEqual(BODY)
    again.edit(titled('Mended'))
    await pause()
    expect(server.draft.title).toBe('Mended')
  })

  it('is sent again by itself when the network is back', async () => {
    const { server, open } = places()
    const keeper = open()
    server.isAway = true
    keeper.edit(titled('Later'))
    await pause()
    expect(keeper.shown()).toMatchObject({ kept: 'unsent', error: { message: 'No network.' } })
    server.isAway = false
    await vi.advanceTimersByTimeAsync(6_000)
    expect(server.draft.title).toBe('Later')
    expect(keeper.shown().kept).toBe('saved')
  })
})

describe('a draft that two people write', () => {
  const clashed = async () => {
    const place = places()
    const keeper = place.open()
    place.server.draft = { ...STORED, title: 'Theirs' }
    keeper.edit(titled('Mine'))
    await pause()
    expect(keeper.shown().kept).toBe('clash')
    expect(place.server.draft.title).toBe('Theirs')
    expect(place.device.left?.body.title).toBe('Mine')
    return { ...place, keeper }
  }

  it('is not written over unasked, not even by going on', async () => {
    const { server, keeper } = await clashed()
    keeper.edit(titled('Mine, more'))
    await pause()
    expect(server.draft.title).toBe('Theirs')
    expect(keeper.shown().kept).toBe('clash')
  })

  it('goes on with theirs, which can be undone, or with mine over it', async () => {
    const one = await clashed()
    await one.keeper.settle(one.server.draft, 'theirs')
    expect(one.keeper.shown()).toMatchObject({ kept: 'saved', history: { present: { title: 'Theirs' } } })
    expect(one.device.left).toBeNull()
    one.keeper.undo()
    expect(one.keeper.shown().history.present.title).toBe('Mine')
    const other = await clashed()
    await other.keeper.settle(other.server.draft, 'mine')
    expect(other.server.draft.title).toBe('Mine')
    expect(other.keeper.shown().kept).toBe('saved')
  })

  it('clashes as well where the device had something left from before', async () => {
    const { server, open } = places()
    const keeper = open({ seen: 'long ago', body: titled('Left') })
    await pause()
    expect(keeper.shown()).toMatchObject({ kept: 'clash', history: { present: { title: 'Left' } } })
    expect(server.sent).toBe(0)
  })
})

describe('what is wrong with a draft', () => {
  it('is found as the server finds it, and said where it is put right', () => {
    const [draw] = BODY.minors
    const wrong = { ...BODY, minors: [{ ...draw!, title: '' }, ...BODY.minors.slice(1)], arms: ['two words'] }
    const problems = draftProblems(wrong)
    expect(problems.map(({ pointer }) => partAt(wrong, pointer))).toEqual(['about', 'minors:draw'])
    expect(problemAt(problems, '/minors/0/title')).toMatch(/blank/)
    expect(problemAt(problems, '/minors/0')).toBeNull()
    expect(problemAt(problems, '/minors/0', true)).toMatch(/blank/)
    expect(draftProblems({ ...BODY, gauges: [{ ...BODY.gauges[0]!, min: '9' }] })).toMatchObject([
      { pointer: '/gauges/0/max' },
    ])
    expect(draftProblems({ ...BODY, calls: BODY.calls.slice(1) })).toMatchObject([{ pointer: '/calls' }])
    expect(draftProblems({ ...BODY, minors: [] }).map(({ pointer }) => partAt(BODY, pointer))).toContain('about')
    expect(partsOf(BODY).map((part) => titleOfPart(BODY, part))).toEqual([
      'What it is',
      'Rule',
      'Ceremonial composure',
      'Draw',
      'Halt',
      'Turn',
      'Gauges',
      'Order of calls',
      'Compare and publish',
    ])
  })
})
