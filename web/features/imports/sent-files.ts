/** Files sent from this window, by import, so that another sheet of a workbook can be read without choosing it again. */
const files = new Map<string, File>()

export const keepSent = (id: string, file: File): void => void files.set(id, file)
export const sentFile = (id: string): File | undefined => files.get(id)
