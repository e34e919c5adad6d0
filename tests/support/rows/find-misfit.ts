import { INSTANCES, type Shape } from './shape.ts'

/** Of a long list so many are looked at, spread over all of it. */
export const LOOKED_AT = 20

/**
 * Where a value is not what its type says: the first place (`[3].name`) with what should be there and what is; null where
 * it fits. A record may have no field that its type does not name.
 * @param shapes the list that shapes name each other in
 * @param shape the place of the value's own
 */
export function findMisfit(shapes: readonly Shape[], shape: number, value: unknown, where = ''): string | null {
  const expected = shapes[shape]!
  const wrong = () => `${where || 'the answer'}: ${sayShape(shapes, shape)} expected, ${sayValue(value)} came`
  switch (expected.is) {
    case 'anything':
      return null
    case 'object':
      return typeof value === 'object' && value !== null ? null : wrong()
    case 'literal':
      return value === expected.value ? null : wrong()
    case 'instance':
      return value instanceof INSTANCES[expected.of] ? null : wrong()
    case 'list':
      return Array.isArray(value) ? misfitInList(shapes, expected.of, value, where) : wrong()
    case 'tuple': {
      const { of, rest } = expected
      if (!Array.isArray(value) || value.length < of.length || (rest === null && value.length > of.length))
        return wrong()
      for (const [place, each] of of.entries()) {
        const misfit = findMisfit(shapes, each, value[place], `${where}[${place}]`)
        if (misfit !== null) return misfit
      }
      return rest === null ? null : misfitInList(shapes, rest, value, where, of.length)
    }
    case 'record':
      return isRecord(value) ? misfitInRecord(shapes, expected, value, where) : wrong()
    case 'one of':
      return misfitInAll(shapes, expected.of, value, where, wrong)
    default:
      return typeof value === expected.is ? null : wrong()
  }
}

function isRecord(value: unknown): value is Record<string, unknown> {
  if (typeof value !== 'object' || value === null) return false
  const prototype = Object.getPrototypeOf(value)
  return prototype === Object.prototype || prototype === null
}

function misfitInList(
  shapes: readonly Shape[],
  shape: number,
  list: readonly unknown[],
  where: string,
  first = 0,
): string | null {
  const step = Math.max(1, (list.length - first) / LOOKED_AT)
  for (let place = first; place < list.length; place += step) {
    const at = Math.floor(place)
    const misfit = findMisfit(shapes, shape, list[at], `${where}[${at}]`)
    if (misfit !== null) return misfit
  }
  return null
}

function misfitInRecord(
  shapes: readonly Shape[],
  { fields, others }: Extract<Shape, { is: 'record' }>,
  value: Record<string, unknown>,
  where: string,
): string | null {
  for (const name in fields) {
    const { of, isOptional } = fields[name]!
    if (!Object.hasOwn(value, name)) {
      if (isOptional) continue
      return `${where}.${name}: missing, there are ${Object.keys(value).join(', ') || 'none'}`
    }
    const misfit = findMisfit(shapes, of, value[name], `${where}.${name}`)
    if (misfit !== null) return misfit
  }
  for (const name in value) {
    if (Object.hasOwn(fields, name)) continue
    if (others === null) return `${where}.${name}: the type does not name it`
    const misfit = findMisfit(shapes, others, value[name], `${where}.${name}`)
    if (misfit !== null) return misfit
  }
  return null
}

/** Says what each of the alternatives misses that a value of this kind could be; where there is none, what was expected. */
function misfitInAll(
  shapes: readonly Shape[],
  alternatives: readonly number[],
  value: unknown,
  where: string,
  wrong: () => string,
): string | null {
  const near: string[] = []
  for (const shape of alternatives) {
    const misfit = findMisfit(shapes, shape, value, where)
    if (misfit === null) return null
    const { is } = shapes[shape]!
    if (Array.isArray(value) ? is === 'list' || is === 'tuple' : is === 'record' && isRecord(value)) near.push(misfit)
  }
  return near.length === 0 ? wrong() : near.join(', or ')
}

function sayShape(shapes: readonly Shape[], shape: number): string {
  const said = shapes[shape]!
  switch (said.is) {
    case 'literal':
      return JSON.stringify(said.value)
    case 'instance':
      return said.of
    case 'tuple':
      return said.rest === null ? `list of ${said.of.length}` : `list of ${said.of.length} or more`
    case 'one of':
      return said.of
        .map((each) => sayShape(shapes, each))
        .sort()
        .join(' | ')
    default:
      return said.is
  }
}

function sayValue(value: unknown): string {
  if (typeof value === 'bigint') return `${value}n`
  if (typeof value !== 'object' || value === null) return JSON.stringify(value) ?? String(value)
  if (Array.isArray(value)) return `list of ${value.length}`
  return isRecord(value) ? `record of ${Object.keys(value).join(', ')}` : value.constructor.name
}
