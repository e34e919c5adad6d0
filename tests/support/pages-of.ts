import type { Client } from './client.ts'

/** All items of a list, asked for in pages of so many; each page but the last is full. */
export async function pagesOf<Item>(client: Client, path: string, limit: number): Promise<Item[]> {
  const found: Item[] = []
  const begun = `${path}${path.includes('?') ? '&' : '?'}limit=${limit}`
  let next: string | null = null
  for (let page = 0; page < 500; page++) {
    const answer: { items: Item[]; next: string | null } = await client.get(
      next === null ? begun : `${begun}&after=${encodeURIComponent(next)}`,
    )
    if (answer.next !== null && answer.items.length !== limit) throw new Error(`${path}: a page that is not full`)
    found.push(...answer.items)
    next = answer.next
    if (next === null) return found
  }
  throw new Error(`${path}: no end`)
}
