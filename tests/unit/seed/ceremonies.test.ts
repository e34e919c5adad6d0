import { describe, expect, test } from 'vitest'
import { type CeremonyPattern, ceremonies } from '../../../seed/catalogue/ceremonies.ts'
import { certifications } from '../../../seed/catalogue/certifications.ts'
import { armsOf, BILLETS, type Billet, companyOf } from '../../../seed/generate/establishment.ts'
import { CeremonyBody } from '../../../server/contract/ceremonies/ceremonies.ts'

const SOME_ID = '00000000-0000-4000-8000-000000000000'

test('eight ceremonies, each of its own name', () => {
  expect(ceremonies).toHaveLength(8)
  expect(new Set(ceremonies.map((ceremony) => ceremony.title)).size).toBe(8)
})

/** How many posts can be held at once, were everyone certified: a matching by augmenting paths (Kuhn 1955). */
function mostFilled(posts: CeremonyPattern['posts'], billets: readonly Billet[]): number {
  const heldBy = new Map<Billet, number>()
  const fill = (post: number, tried: Set<Billet>): boolean =>
    billets.some((billet) => {
      if (!posts[post]?.grades?.includes(billet.grade) || tried.has(billet)) return false
      tried.add(billet)
      const before = heldBy.get(billet)
      if (before !== undefined && !fill(before, tried)) return false
      heldBy.set(billet, post)
      return true
    })
  return posts.filter((_, index) => fill(index, new Set())).length
}

describe.each(ceremonies)('$title', ({ title, place, mannedBy, posts, startsAt, minutes }) => {
  test('can be entered through the API', () => {
    const start = Date.parse(`2027-06-05T${startsAt}:00Z`)
    const times = { startsAt: new Date(start).toISOString(), endsAt: new Date(start + minutes * 60_000).toISOString() }
    expect(CeremonyBody.safeParse({ title, place, posts, unitId: SOME_ID, ...times }).error).toBeUndefined()
  })

  test('has 6 to 14 posts, each with a name and a place of its own, ranks and places without a gap', () => {
    expect(posts.length).toBeGreaterThanOrEqual(6)
    expect(posts.length).toBeLessThanOrEqual(14)
    expect(new Set(posts.map((post) => post.title)).size).toBe(posts.length)
    const rows = [...new Set(posts.map((post) => post.row))].toSorted((one, other) => one - other)
    expect(rows).toEqual(rows.map((_, index) => index + 1))
    for (const row of rows) {
      const places = posts.filter((post) => post.row === row).map((post) => post.place)
      expect(places.toSorted((one, other) => one - other)).toEqual(places.map((_, index) => index + 1))
    }
  })

  test('asks for a certification that exists, with its arm, of grades that carry it', () => {
    for (const post of posts) {
      const certification = certifications.find((one) => one.code === post.certification)
      expect(certification?.arms, post.title).toContain(post.arm)
      expect(post.grades?.length, post.title).toBeGreaterThan(0)
      for (const { grade } of BILLETS.filter((billet) => post.grades?.includes(billet.grade))) {
        expect(armsOf(grade), `${post.title}: ${grade}`).toContain(post.arm)
      }
    }
  })

  test('could be manned by those it falls to, were all of them certified', () => {
    const billets = BILLETS.filter((billet) => mannedBy === 'battalion' || companyOf(billet.unitKey) === 'a')
    expect(mostFilled(posts, billets)).toBe(posts.length)
  })
})

test('the check of manning sees too few people', () => {
  const arch = ceremonies.find((ceremony) => ceremony.title === 'Arch of Sabers')!
  const ofA = BILLETS.filter((billet) => companyOf(billet.unitKey) === 'a')
  expect(mostFilled(arch.posts, ofA)).toBe(6) // four platoon leaders, the executive officer, the commander
})
