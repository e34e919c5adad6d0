import type { Answer } from './client.ts'

export interface SetCookie {
  readonly name: string
  readonly value: string
  /** Attributes in lower case; those without a value are ''. */
  readonly attributes: Readonly<Record<string, string>>
}

/** The cookies an answer sets. */
export function cookiesOf({ headers }: Pick<Answer, 'headers'>): SetCookie[] {
  const lines = (headers['set-cookie'] ?? []) as unknown as string[]
  return lines.map((line) => {
    const [[name = '', value = ''] = [], ...rest] = line.split(/; ?/).map((part) => part.split('=', 2))
    const attributes = Object.fromEntries(rest.map(([key = '', text = '']) => [key.toLowerCase(), text]))
    return { name, value, attributes }
  })
}

/** The value of one of them; undefined where it is not set. */
export const cookieOf = (answer: Pick<Answer, 'headers'>, name: string): string | undefined =>
  cookiesOf(answer).find((cookie) => cookie.name === name)?.value
