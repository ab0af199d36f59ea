/** Chart.js with just the pieces in use, fetched when the first chart is drawn. */
import {
  Chart, Filler, LinearScale, LineController, LineElement, PointElement, ScatterController, Tooltip,
  type ChartConfiguration, type Plugin,
} from 'chart.js'
import { Scatter } from 'vue-chartjs'

/** Vertical and horizontal error bars on points that carry `ux` and `uy` (half-lengths in data units). */
const errorBars: Plugin = {
  id: 'errorBars',
  afterDatasetsDraw(chart) {
    const { ctx, scales } = chart
    const [x, y] = [scales['x'], scales['y']]
    if (!x || !y) return
    ctx.save()
    ctx.beginPath()
    ctx.rect(chart.chartArea.left, chart.chartArea.top, chart.chartArea.width, chart.chartArea.height)
    ctx.clip()
    chart.data.datasets.forEach((dataset, index) => {
      if (!chart.isDatasetVisible(index)) return
      ctx.save()
      ctx.strokeStyle = String(dataset.borderColor ?? '#888888')
      ctx.lineWidth = 1.2
      for (const point of dataset.data as unknown[]) {
        const at = point as { x?: number; y?: number; ux?: number; uy?: number } | null
        if (!at || at.x === undefined || at.y === undefined) continue
        ctx.beginPath()
        if (at.uy) {
          ctx.moveTo(x.getPixelForValue(at.x), y.getPixelForValue(at.y - at.uy))
          ctx.lineTo(x.getPixelForValue(at.x), y.getPixelForValue(at.y + at.uy))
        }
        if (at.ux) {
          ctx.moveTo(x.getPixelForValue(at.x - at.ux), y.getPixelForValue(at.y))
          ctx.lineTo(x.getPixelForValue(at.x + at.ux), y.getPixelForValue(at.y))
        }
        ctx.stroke()
      }
      ctx.restore()
    })
    ctx.restore()
  },
}

Chart.register(
  Filler, LinearScale, LineController, LineElement, PointElement, ScatterController, Tooltip, errorBars,
)

export { Scatter }
export type { Chart, ChartConfiguration }
