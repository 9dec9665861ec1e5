// A plot as a picture to hand on: its title, the drawing, and what the marks mean.

const EDGE = 16;
// Lines differ by their dashes, in the same order here, in the drawing and in the page's key (plots.css).
export const DASHES = [[], [7, 4], [2, 3], [10, 3, 2, 3], [4, 2]];

/** Say in words what is drawn how; a picture has no page around it that would. */
const keyOf = (figure) => [...figure.querySelectorAll(".key li")];

export function savePicture(drawing, figure, data, whose) {
  const ratio = window.devicePixelRatio || 1;
  const style = getComputedStyle(document.documentElement);
  const colour = (name) => style.getPropertyValue(name).trim();
  const width = drawing.width / ratio + 2 * EDGE;
  const height = drawing.height / ratio + 2 * EDGE + 28 + 28;
  const canvas = document.createElement("canvas");
  canvas.width = width * ratio;
  canvas.height = height * ratio;
  const pen = canvas.getContext("2d");
  pen.scale(ratio, ratio);
  pen.fillStyle = colour("--paper");
  pen.fillRect(0, 0, width, height);
  pen.fillStyle = colour("--ink");
  pen.font = `600 15px ${style.getPropertyValue("--text")}`;
  pen.fillText(whose ? `${whose}: ${data.title}` : data.title, EDGE, EDGE + 12, width - 2 * EDGE);
  pen.drawImage(drawing, EDGE, EDGE + 28, drawing.width / ratio, drawing.height / ratio);
  pen.font = `12px ${style.getPropertyValue("--text")}`;
  let left = EDGE;
  const base = height - EDGE;
  for (const item of keyOf(figure)) {
    mark(pen, item.querySelector("svg").dataset, left, base - 10, colour);
    const text = item.textContent.trim();
    pen.fillStyle = colour("--ink");
    pen.fillText(text, left + 34, base);
    left += 34 + pen.measureText(text).width + 20;
  }
  canvas.toBlob((blob) => hand(blob, `${data.name}-${isoDay(data.days[0])}-${isoDay(data.days.at(-1))}.png`), "image/png");
}

const isoDay = (seconds) => new Date(seconds * 1e3).toISOString().slice(0, 10);

function hand(blob, name) {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(blob);
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
}

/** The same marks as in the page's key (plot_mark.html), 28 by 12. */
function mark(pen, { draw, number }, x, y, colour) {
  const ink = colour("--ink");
  pen.save();
  pen.strokeStyle = ink;
  pen.lineWidth = 1.5;
  pen.fillStyle = ink;
  if (draw === "low") {
    pen.globalAlpha = 0.2;
    pen.fillRect(x, y, 28, 10);
  } else if (draw === "bars") pen.fillRect(x + 10, y, 8, 10);
  else if (draw === "line") {
    pen.setLineDash(DASHES[Number(number) % DASHES.length]);
    pen.beginPath();
    pen.moveTo(x, y + 5);
    pen.lineTo(x + 28, y + 5);
    pen.stroke();
  } else {
    pen.beginPath();
    pen.arc(x + 14, y + 5, 4, 0, 2 * Math.PI);
    if (draw === "open") pen.fillStyle = colour("--paper");
    pen.fill();
    pen.stroke();
  }
  pen.restore();
}
