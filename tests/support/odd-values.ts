/** A JSON schema as an OpenAPI document holds it, as far as values are made from it. */
export interface Schema {
  readonly $ref?: string
  readonly type?: string
  readonly enum?: readonly unknown[]
  readonly const?: unknown
  readonly format?: string
  readonly anyOf?: readonly Schema[]
  readonly oneOf?: readonly Schema[]
  readonly allOf?: readonly Schema[]
  readonly properties?: Record<string, Schema>
  readonly required?: readonly string[]
  readonly items?: Schema
  readonly additionalProperties?: Schema | boolean
  readonly minimum?: number
  readonly maximum?: number
}

/** Where random choices and known values come from. */
export interface Source {
  /** A whole number from 0 up to but not including `below`. */
  below(below: number): number
  /** Schemas by name. */
  readonly schemas: Record<string, Schema>
  /** Ids that exist, and codes that exist. */
  readonly ids: readonly string[]
  readonly codes: readonly string[]
}

const ODD_TEXTS = [
  '',
  ' ',
  "'; DROP TABLE sheet; --",
  '" OR 1=1 --',
  '\\',
  '%_%',
  '${7*7}{{7*7}}',
  '<script>alert(1)</script>',
  '\u0000',
  '\ud800',
  '😀',
  'שלום',
  '../../etc/passwd',
  'x'.repeat(5000),
  '2026-02-30',
  '9999-12-31',
  '2026-03-02T09:00:00-23:59',
  '1e308',
  'null',
  'ffffffff-ffff-ffff-ffff-ffffffffffff',
]
const ODD_VALUES: readonly unknown[] = [
  null,
  true,
  -1,
  0,
  1.5,
  1e308,
  -2147483649,
  [],
  {},
  [[]],
  { a: { b: {} } },
  ...ODD_TEXTS,
]

/** A value for a schema: mostly one that fits, now and then an odd one. `oddness`: one in so many is odd. */
export function valueFor(schema: Schema, source: Source, oddness: number, depth = 0): unknown {
  const pick = <Item>(items: readonly Item[]): Item => items[source.below(items.length)]!
  if (source.below(oddness) === 0) return pick(ODD_VALUES)
  if (schema.$ref) return valueFor(source.schemas[schema.$ref.split('/').at(-1)!] ?? {}, source, oddness, depth)
  if (schema.const !== undefined) return schema.const
  if (schema.enum) return pick(schema.enum)
  const choices = schema.anyOf ?? schema.oneOf
  if (choices) return valueFor(pick(choices), source, oddness, depth)
  if (schema.allOf) return valueFor(schema.allOf[0]!, source, oddness, depth)
  switch (schema.type) {
    case 'boolean':
      return source.below(2) === 0
    case 'integer':
    case 'number': {
      const low = Math.max(schema.minimum ?? 0, -1000)
      const high = Math.min(schema.maximum ?? low + 20, low + 20)
      return low + source.below(high - low + 1)
    }
    case 'array':
      return depth > 5
        ? []
        : Array.from({ length: source.below(4) }, () => valueFor(schema.items ?? {}, source, oddness, depth + 1))
    case 'object':
      return objectFor(schema, source, oddness, depth)
    case 'string':
      return textFor(schema, source, pick)
    default:
      return pick(ODD_VALUES)
  }
}

function objectFor(schema: Schema, source: Source, oddness: number, depth: number): Record<string, unknown> {
  const value: Record<string, unknown> = {}
  for (const [name, property] of Object.entries(schema.properties ?? {})) {
    const isRequired = schema.required?.includes(name) ?? false
    const isLeftOut = source.below(isRequired ? oddness * 2 : 3) === 0
    if (!isLeftOut) value[name] = valueFor(property, source, oddness, depth + 1)
  }
  if (source.below(oddness * 2) === 0) value.unknownField = 1
  return value
}

function textFor(schema: Schema, source: Source, pick: <Item>(items: readonly Item[]) => Item): string {
  const day = `20${20 + source.below(12)}-${String(1 + source.below(12)).padStart(2, '0')}-${String(1 + source.below(28)).padStart(2, '0')}`
  switch (schema.format) {
    case 'uuid':
      return pick(source.ids)
    case 'date':
      return day
    case 'date-time':
      return `${day}T${String(source.below(24)).padStart(2, '0')}:00:00${pick(['Z', '+02:00', '-05:00'])}`
    default:
      return pick([...source.codes, 'correct', '80', 'UTC', 'A word'])
  }
}
