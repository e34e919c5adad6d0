/** Figures of fewer attempts than this are shown, but labelled: they say next to nothing about a rate. */
export const FEW_ATTEMPTS = 5
