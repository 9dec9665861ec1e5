// The e1RM of one exercise: a point a session, and the level of the trend with its range. uPlot is loaded before.
const holder = document.getElementById("trend-plot");
const source = document.getElementById("trend-data");

function colour(name) {
  return getComputedStyle(document.documentElement).getPropertyValue(name).trim();
}

function options(data, width) {
  const ink = colour("--ink"), quiet = colour("--ink-2"), rule = colour("--rule"), paper = colour("--paper");
  // The day first, as on the rest of the page; a bare "en" would put the month first.
  const names = new Intl.DateTimeFormat(document.documentElement.lang, { month: "short", timeZone: "UTC" });
  const day = (tick) => `${new Date(tick * 1e3).getUTCDate()} ${names.format(tick * 1e3)}`;
  const axis = { stroke: quiet, grid: { stroke: rule, width: 1 }, ticks: { stroke: rule }, font: "12px sans-serif" };
  const line = { points: { show: false }, spanGaps: true };
  return {
    width,
    height: 288,
    tzDate: (ts) => uPlot.tzDate(new Date(ts * 1e3), "UTC"),
    scales: { x: { time: true } },
    axes: [{ ...axis, space: 72, values: (_, ticks) => ticks.map(day) }, { ...axis, size: 64, values: (_, ticks) => ticks.map((tick) => `${tick} ${data.unit}`) }],
    series: [
      {},
      { ...line, stroke: "transparent" },
      { ...line, stroke: ink, width: 1.5 },
      { ...line, stroke: "transparent" },
      {
        stroke: ink,
        width: 0,
        paths: () => null,
        points: { show: true, size: 7, stroke: ink, fill: paper, width: 1.5 },
      },
    ],
    bands: [{ series: [3, 1], fill: `color-mix(in srgb, ${ink} 12%, transparent)` }],
    legend: { show: false },
    cursor: { drag: { x: false, y: false } },
  };
}

if (holder && source && window.uPlot) {
  const data = JSON.parse(source.textContent);
  const series = [data.days, data.low, data.level, data.high, data.observed];
  let plot;
  const draw = () => {
    plot?.destroy();
    plot = new uPlot(options(data, holder.clientWidth), series, holder);
  };
  draw();
  new ResizeObserver(() => plot.setSize({ width: holder.clientWidth, height: 288 })).observe(holder);
  matchMedia("(prefers-color-scheme: dark)").addEventListener("change", draw);
}
