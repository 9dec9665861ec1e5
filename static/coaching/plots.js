// Draws each plot from the numbers beside it. uPlot is loaded before; without it the tables tell the same.

import { DASHES, savePicture } from "./plot_picture.js";

const HEIGHT = 280;

const colour = (name) => getComputedStyle(document.documentElement).getPropertyValue(name).trim();
const mixed = (ink, share) => `color-mix(in srgb, ${ink} ${share}%, transparent)`;
const hidden = { points: { show: false } };

/** How one series is drawn; `number` counts those of its kind, so that lines differ by their dashes. */
function drawn({ draw }, number, look, weekly) {
  const { ink, paper } = look;
  const stepped = weekly ? { paths: uPlot.paths.stepped({ align: 1 }) } : {};
  const ring = (fill, size) => ({ show: true, size, stroke: ink, fill, width: 1.5 });
  return {
    low: { ...hidden, ...stepped, stroke: look.edge, width: 1, spanGaps: !weekly },
    high: { ...hidden, ...stepped, stroke: look.edge, width: 1, spanGaps: !weekly },
    line: { stroke: ink, width: 1.5, dash: DASHES[number % DASHES.length], spanGaps: true, points: ring(ink, 4) },
    bars: { ...hidden, stroke: ink, width: 0, fill: mixed(ink, 72), paths: uPlot.paths.bars({ size: [0.45, 18], align: 0 }) },
    points: { stroke: ink, width: 0, paths: () => null, points: ring(ink, 6) },
    open: { stroke: ink, width: 0, paths: () => null, points: ring(paper, 7) },
  }[draw];
}

function spread(data) {
  const [least, most] = data.limits ?? [-Infinity, Infinity];
  const kept = ({ draw }) => (value) => value !== null && (draw !== "points" || (value >= least && value <= most));
  const values = data.series.flatMap((one) => one.values.filter(kept(one)));
  const low = Math.min(...values, ...(data.fromZero ? [0] : []));
  const high = Math.max(...values, ...(data.fromZero ? [0] : []));
  const room = (high - low || 1) * 0.08;
  return [data.fromZero && low === 0 ? 0 : low - room, high + room];
}

function options(data, width) {
  const look = {
    ink: colour("--ink"), quiet: colour("--ink-2"), rule: colour("--rule"), paper: colour("--paper"), edge: colour("--rule-2"),
  };
  // The day first, as on the rest of the page; a bare "en" would put the month first.
  const names = new Intl.DateTimeFormat(document.documentElement.lang, { month: "short", timeZone: "UTC" });
  const day = (tick) => `${new Date(tick * 1e3).getUTCDate()} ${names.format(tick * 1e3)}`;
  const axis = { stroke: look.quiet, grid: { stroke: look.rule, width: 1 }, ticks: { stroke: look.rule }, font: "12px sans-serif" };
  const seen = {};
  const series = data.series.map((one) => drawn(one, (seen[one.draw] = (seen[one.draw] ?? -1) + 1), look, data.weekly));
  const at = (draw) => data.series.findIndex((one) => one.draw === draw) + 1;
  // Half a week of room on either side keeps the first and the last bar whole.
  const half = 3.5 * 86_400;
  return {
    width,
    height: HEIGHT,
    tzDate: (ts) => uPlot.tzDate(new Date(ts * 1e3), "UTC"),
    scales: {
      x: { time: true, range: (_, low, high) => [low - half, high + half] },
      y: { range: () => spread(data) },
    },
    axes: [
      { ...axis, space: 72, values: (_, ticks) => ticks.map(day) },
      { ...axis, size: 64, values: (_, ticks) => ticks.map((tick) => `${tick}${data.unit ? ` ${data.unit}` : ""}`.replace("-", "−")) },
    ],
    series: [{}, ...series],
    bands: at("low") && at("high") ? [{ series: [at("high"), at("low")], fill: mixed(look.ink, 12) }] : [],
    legend: { show: false },
    cursor: { show: false },
  };
}

for (const figure of document.querySelectorAll("[data-plot]")) {
  const source = figure.querySelector("script[type='application/json']");
  if (!source || !window.uPlot) continue;
  const data = JSON.parse(source.textContent);
  const holder = figure.querySelector(".plot");
  figure.dataset.drawn = "";
  let plot;
  const draw = () => {
    plot?.destroy();
    plot = new uPlot(options(data, holder.clientWidth), [data.days, ...data.series.map((one) => one.values)], holder);
  };
  draw();
  new ResizeObserver(() => plot.setSize({ width: holder.clientWidth, height: HEIGHT })).observe(holder);
  matchMedia("(prefers-color-scheme: dark)").addEventListener("change", draw);
  const save = figure.querySelector("[data-picture]");
  save.hidden = false;
  save.addEventListener("click", () => savePicture(plot.ctx.canvas, figure, data, save.dataset.from));
}
document.body.dataset.plots = "ready";
