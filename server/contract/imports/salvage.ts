import { z } from 'zod'

/** A thing of which any part may be missing. */
export type Part<Value> = Value extends readonly (infer Entry)[]
  ? readonly Part<Entry>[]
  : Value extends object
    ? { readonly [Key in keyof Value]?: Part<Value[Key]> }
    : Value

/**
 * What can be read of a value that is not as its schema wants it: fields that do not fit are left out, of a list with them
 * nothing is left out but their fields, a list of plain values that has one is left out whole.
 */
export function salvage(schema: z.core.$ZodType, value: unknown): unknown {
  const parsed = z.safeParse(schema, value)
  if (parsed.success) return parsed.data
  const inner = unwrap(schema)
  if (inner instanceof z.ZodArray && Array.isArray(value) && unwrap(inner.element) instanceof z.ZodObject) {
    return value.map((entry) => salvage(inner.element, entry))
  }
  if (!(inner instanceof z.ZodObject)) return undefined
  const given = typeof value === 'object' && value !== null ? (value as Record<string, unknown>) : {}
  const fields = Object.entries(inner.shape).map(([key, field]) => [key, salvage(field as z.ZodType, given[key])])
  return Object.fromEntries(fields.filter(([, field]) => field !== undefined))
}

function unwrap(schema: z.core.$ZodType): z.core.$ZodType {
  const wraps = schema instanceof z.ZodOptional || schema instanceof z.ZodNullable || schema instanceof z.ZodDefault
  return wraps ? unwrap(schema.def.innerType) : schema
}
