
"use strict";
/* A cursor over the pictures of one dive: reads out the sample nearest to the pointer, or goes by keys. The page is whole without it. */
const LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";

/* Differences in base 32, least digits first, the sign in the lowest bit; "*n" repeats the last value n times; "~" is unknown. */
function decode(text) {
  const values = [];
  let value = 0, number = 0, shift = 0, repeat = false;
  for (const letter of text) {
    if (letter === "*") { repeat = true; continue; }
    if (letter === "~") { values.push(NaN); continue; }
    const digit = LETTERS.indexOf(letter);
    number += (digit & 31) * 2 ** shift;
    shift += 5;
    if (digit & 32) continue;
    if (repeat) {
      for (let i = 0; i < number; i++) values.push(values[values.length - 1]);
    } else {
      value += number % 2 ? -(number - 1) / 2 : number / 2;
      values.push(value);
    }
    number = shift = 0;
    repeat = false;
  }
  return values;
}

function clock(seconds) {
  const whole = Math.round(seconds), two = (n) => String(n).padStart(2, "0");
  const minutes = Math.floor(whole / 60) % 60, hours = Math.floor(whole / 3600);
  return hours ? `${hours}:${two(minutes)}:${two(whole % 60)}` : `${minutes}:${two(whole % 60)}`;
}

function readings(box) {
  return Array.from(box.querySelectorAll(".reading [data-values]"), (cell) => {
    const digits = Number(cell.dataset.digits), words = cell.dataset.words ? cell.dataset.words.split("|") : null;
    const values = decode(cell.dataset.values);
    return {
      name: cell.dataset.name,
      show: cell.querySelector("b"),
      text: (i) => Number.isNaN(values[i]) ? "-" : words ? words[values[i]] : (values[i] / 10 ** digits).toFixed(digits) + cell.dataset.unit,
    };
  });
}

function cursor(box) {
  const times = [], reads = readings(box), spoken = box.querySelector(".spoken"), until = Number(box.dataset.until);
  const share = Number(box.dataset.share), bar = box.querySelector(".reading"), plots = Array.from(box.querySelectorAll(".plot"));
  const lines = plots.map((plot) => plot.appendChild(Object.assign(document.createElement("i"), { className: "cursor", hidden: true })));
  let at = 0, sum = 0;
  for (const step of decode(box.dataset.steps)) times.push(sum += step / 1000);

  function nearest(time) {
    let low = 0, high = times.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (times[middle] <= time) low = middle; else high = middle - 1;
    }
    return low + 1 < times.length && times[low + 1] - time < time - times[low] ? low + 1 : low;
  }
  function show(index, speak) {
    at = Math.max(0, Math.min(times.length - 1, index));
    const time = clock(times[at]), left = `${times[at] / until * share * 100}%`;
    for (const line of lines) { line.hidden = false; line.style.left = left; }
    bar.classList.remove("waiting");
    bar.querySelector(".now").textContent = time;
    for (const read of reads) read.show.textContent = read.text(at);
    bar.setAttribute("aria-valuenow", String(times[at]));
    bar.setAttribute("aria-valuetext", time);
    if (speak) spoken.textContent = [time, ...reads.filter((read) => read.text(at) !== "-").map((read) => `${read.name} ${read.text(at)}`)].join(", ");
  }
  function keyed(event) {
    if (event.ctrlKey || event.altKey || event.metaKey) return;
    const one = (way) => event.shiftKey ? nearest(times[at] + way * 60) + (nearest(times[at] + way * 60) === at ? way : 0) : at + way;
    const far = (way) => nearest(times[at] + way * 600);
    const moves = { ArrowRight: () => one(1), ArrowUp: () => one(1), ArrowLeft: () => one(-1), ArrowDown: () => one(-1), PageUp: () => far(1),
      PageDown: () => far(-1), Home: () => 0, End: () => times.length - 1 };
    if (!moves[event.key]) return;
    event.preventDefault();
    show(moves[event.key](), true);
  }
  function pointed(event) {
    const plot = event.target.closest(".plot");
    if (!plot) return;
    const rect = plot.getBoundingClientRect();
    show(nearest((event.clientX - rect.left) / rect.width / share * until), false);
  }
  bar.hidden = false;
  for (const [name, value] of [["role", "slider"], ["tabindex", "0"], ["aria-label", "Time of the dive"], ["aria-valuemin", "0"],
    ["aria-valuemax", String(until)], ["aria-valuenow", "0"], ["aria-valuetext", "0:00"]]) bar.setAttribute(name, value);
  bar.addEventListener("keydown", keyed);
  box.addEventListener("pointermove", pointed);
  box.addEventListener("pointerdown", (event) => { if (event.target.closest(".plot") && !event.target.closest("a")) bar.focus({ preventScroll: true }); });
  for (const link of document.querySelectorAll(`a[href="#${box.id}"][data-at]`)) {
    link.addEventListener("click", () => { show(nearest(Number(link.dataset.at)), true); bar.focus({ preventScroll: true }); });
  }
}

for (const box of document.querySelectorAll(".pictures")) cursor(box);
