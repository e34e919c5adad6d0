import { listed, plural } from '../../words/format-number.ts'

/** A title, with the versions it is of where a later version defines it otherwise: "Draw, as in version 1". */
export const eraTitle = (title: string, { versions, current }: { versions: readonly number[]; current: boolean }) =>
  current ? title : `${title}, as in ${plural(versions.length, 'version')} ${listed(versions.map(String))}`
