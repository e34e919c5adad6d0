import { expect, test } from 'vitest'
import { createRandom } from '../../../seed/generate/random.ts'
import { randomUuid } from '../../../seed/generate/random-uuid.ts'
import { Uuid } from '../../../server/contract/common.ts'

test('ids are UUIDs of version 4 and the RFC 9562 variant, each another, the same for the same seed', () => {
  const draw = () => {
    const random = createRandom(1)
    return Array.from({ length: 2000 }, () => randomUuid(random))
  }
  const ids = draw()
  for (const id of ids) {
    // RFC 9562, 5.4: version 0b0100 in the third group, variant 0b10 in the fourth.
    expect(id).toMatch(/^[0-9a-f]{8}-[0-9a-f]{4}-4[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/)
    expect(Uuid.parse(id)).toBe(id)
  }
  expect(new Set(ids).size).toBe(2000)
  expect(draw()).toEqual(ids)
})
