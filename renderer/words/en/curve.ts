import { UNFITTED_EN } from '@core/report/words'
export const curve = {
  which: 'Which curve', touchLine: 'tray meets the ground', dropU: 'u of the drop', force: 'Force on the axle', drop: 'Drop', chart: 'Load and drop', chartTitle: '{axle}: drop against force',
  fit: 'fit', touched: 'tray on the ground: only a bound', unused: 'took no part', residuals: 'Distance of the readings from the curve, in u', residualAxis: 'residual / u', branch: 'Side', remark: 'Remark',
  emptyTitle: 'No curve yet', empty: 'A curve needs a zero and at least three loads.',
  refused: {
    noZero: 'There is no zero yet: read the four corners with nothing on the car.', noReadings: 'No step with a load has been read yet.',
    tooFewPoints: 'Too few loads yet: read at least three different ones.', noDrop: 'This axle did not move: place loads nearer to it.',
    unknownGauge: 'The gauge of this squat test is not in the car’s list of instruments any more.', noShapeFits: 'No shape could be fitted. Look for a reading that stands out, or add loads.',
  },
  notFitted: UNFITTED_EN,
  forceCorner: 'Force on the corner', supportHow: 'Evidence: the share of the readings’ say that each shape has (Akaike weight). Where none has nearly all of it, the doubt between shapes is in every result.',
  shapes: 'Which shape', shapeHead: 'Shape', weight: 'Evidence', dof: 'd.o.f.', parameters: 'Parameters, u',
  shape: { linear: 'straight', threshold: 'threshold', progressive: 'progressive', cubic: 'progressive, cubic', stop: 'two slopes', thresholdStop: 'threshold, two slopes' },
  parameter: {
    rateNPerMm: 'rate', fullRateNPerMm: 'rate at full load', halfRateNPerMm: 'rate at half load', thresholdN: 'threshold', kneeMm: 'knee at', stopRateNPerMm: 'rate after the knee',
  },
  friction: 'Friction, half the gap between up and down', frictionFrom: { branches: 'from both branches', assumed: 'assumed', none: 'none read: only one branch' },
  theory: 'By the dimensions of {name}', theoryShort: '{name}, by its dimensions', gravity: 'Gravity', gravityFrom: { place: 'of your place', standard: 'standard, 9.80665 m/s²' },
  axleRate: 'Rate of the axle', wheelRate: 'Wheel rate', rateAt: 'at a drop of', rateBeyond: 'Beyond what was read: no rate is told there.', rateShared: 'Of both wheels together: halve it for one. Friction left out.',
  straight: {
    enough: 'A straight line is enough: evidence {support}.',
    open: 'A straight line may do (evidence {straight}); the readings lean to the shape “{shape}” ({support}).',
    notEnough: 'A straight line is not enough (evidence {straight}): the readings fit the shape “{shape}” best ({support}).',
  },
  remarks: 'What to know', noRemarks: 'Nothing stands out.', try: 'Read a drop', forceOn: 'Force, {axle}',
}
