import pg from 'pg'

/** A statement as it went to PostgreSQL, the first time with these words. */
export interface HeardStatement {
  readonly text: string
  /** Of each time it was sent, a few of them. */
  readonly values: unknown[][]
  /** What was going on when it was sent first. */
  readonly during: string
}

export interface Hearing {
  /** By their words, of everything since the beginning. */
  readonly statements: ReadonlyMap<string, HeardStatement>
  /** Says what goes on from now on. */
  during: string
  /** Hears no more. */
  end(): void
}

const MOST_VALUES = 4

/** Listens to every statement that this process sends to PostgreSQL through the driver. */
export function hearStatements(): Hearing {
  const statements = new Map<string, HeardStatement>()
  const { query } = pg.Client.prototype
  const hearing = {
    statements,
    during: '',
    end() {
      pg.Client.prototype.query = query
    },
  }
  pg.Client.prototype.query = function (this: pg.Client, ...sent: unknown[]) {
    const [first] = sent
    if (isWithValues(first)) keep(first)
    return (query as (...all: unknown[]) => unknown).apply(this, sent)
  } as typeof query
  function keep({ text, values }: { text: string; values: unknown[] }): void {
    const known = statements.get(text) ?? { text, values: [], during: hearing.during }
    statements.set(text, known)
    if (known.values.length < MOST_VALUES) known.values.push(values)
  }
  return hearing
}

const isWithValues = (sent: unknown): sent is { text: string; values: unknown[] } =>
  typeof sent === 'object' && sent !== null && 'text' in sent && 'values' in sent && Array.isArray(sent.values)
