/** A probability as a share; never 0 or 100 %, which no reading can tell. */
export const chanceText = (share: number): string =>
  share > 0.995 ? '> 99 %' : share < 0.005 ? '< 1 %' : `${Math.round(share * 100)} %`
