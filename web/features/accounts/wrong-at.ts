import { ApiError } from '../../api/errors.ts'

/** What a refusal says of each field, by its pointer. A role is shown with all roles. */
export const wrongAt =
  (error: Error | null) =>
  (pointer: string): string | undefined => {
    const items = error instanceof ApiError ? error.items : []
    return items.find((item) => item.pointer === pointer || item.pointer.startsWith(`${pointer}/`))?.detail
  }
