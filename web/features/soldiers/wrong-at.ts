import { ApiError } from '../../api/errors.ts'

/** What a refusal says of a field, by its pointer. */
export const wrongAt =
  (error: Error | null) =>
  (pointer: string): string | undefined =>
    error instanceof ApiError
      ? error.items.find((item) => item.pointer === pointer || item.pointer.startsWith(`${pointer}/`))?.detail
      : undefined

/** A refusal that no field shows. */
export const generalOf = (error: Error | null): Error | null =>
  error instanceof ApiError && error.items.some(({ pointer }) => pointer !== '') ? null : error
