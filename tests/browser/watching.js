// Notes, many times a second by the page's clock, which bars are whole in view: those that stand
// on the page and copies of them.

() => {
  window.watched = [];
  setInterval(() => {
    const foot = document.getElementById("dock").getBoundingClientRect().top;
    const whole = new Set();
    for (const bar of document.querySelectorAll(".bar")) {
      const box = bar.getBoundingClientRect();
      const inside = box.top >= -1.5 && box.bottom <= foot + 1.5 && box.left >= -1 && box.right <= window.innerWidth + 1;
      if (inside && box.height > 20) whole.add(Number(bar.dataset.copy ?? bar.dataset.bar));
    }
    window.watched.push([window.listened.currentTime, [...whole]]);
  }, 50);
}
