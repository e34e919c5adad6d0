/** Where to go after signing in: the address asked for when it is a path of ours, else the overview. */
export const ownAddress = (from: string | null): string => (from && /^\/(?![/\\])/.test(from) ? from : '/')
