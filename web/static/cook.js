// The cooking pages work without this. It runs timers that go on from step to
// step, keeps the screen awake, and turns steps with the arrow keys.
"use strict";
(function () {
  const root = document.querySelector("[data-cook]");
  if (!root) return;
  const key = "timers";
  const shelf = root.querySelector("[data-running]");
  const read = function () {
    try {
      const list = JSON.parse(sessionStorage.getItem(key) || "[]");
      return Array.isArray(list) ? list.filter((t) => t && t.end > 0) : [];
    } catch (e) {
      return [];
    }
  };
  let timers = read();
  const keep = function () {
    try {
      sessionStorage.setItem(key, JSON.stringify(timers));
    } catch (e) {
      // Without storage the timer runs on this page only.
    }
  };
  const shown = new Map();
  const clock = function (seconds) {
    const s = Math.abs(seconds), two = (n) => String(n).padStart(2, "0");
    const h = Math.floor(s / 3600);
    return (h ? h + ":" : "") + two(Math.floor(s / 60) % 60) + ":" + two(s % 60);
  };
  let sound = null;
  const ring = function () {
    if (!sound) return;
    for (let i = 0; i < 3; i++) {
      const o = sound.createOscillator(), g = sound.createGain();
      g.gain.value = 0.2;
      o.frequency.value = 660;
      o.connect(g).connect(sound.destination);
      o.start(sound.currentTime + i * 0.5);
      o.stop(sound.currentTime + i * 0.5 + 0.3);
    }
  };
  const build = function (t) {
    const box = document.createElement("div"), name = document.createElement("p"), left = document.createElement("p");
    const say = document.createElement("p"), stop = document.createElement("button");
    box.className = "clock";
    left.className = "left";
    left.setAttribute("role", "timer");
    say.setAttribute("role", "alert");
    name.textContent = t.dish + ": " + t.name;
    stop.type = "button";
    stop.className = "quiet-button";
    stop.textContent = "Stop";
    stop.setAttribute("aria-label", "Stop the timer of " + t.name);
    stop.addEventListener("click", function () {
      timers = timers.filter((x) => x.id !== t.id);
      keep();
      draw();
    });
    box.append(name, left, say, stop);
    shelf.append(box);
    return { box: box, left: left, say: say };
  };
  const draw = function () {
    for (const [id, v] of shown) {
      if (!timers.some((t) => t.id === id)) {
        v.box.remove();
        shown.delete(id);
      }
    }
    for (const t of timers) {
      if (!shown.has(t.id)) shown.set(t.id, build(t));
      const v = shown.get(t.id), left = Math.ceil((t.end - Date.now()) / 1000);
      v.left.textContent = left > 0 ? clock(left) : clock(-left) + " past";
      if (left > 0) continue;
      const say = t.most > t.end && Date.now() < t.most ? "Look at it now; it may need longer." : "Time is up.";
      if (v.say.textContent !== say) {
        v.say.textContent = say;
        v.box.classList.add("over");
      }
      if (!t.rung) {
        t.rung = true;
        keep();
        ring();
      }
    }
  };
  for (const b of root.querySelectorAll("button[data-seconds]")) {
    b.hidden = false;
    b.addEventListener("click", function () {
      const now = Date.now();
      if (window.AudioContext && !sound) sound = new AudioContext();
      timers.push({ id: now + "-" + timers.length, dish: root.dataset.dish, name: b.dataset.name,
        end: now + b.dataset.seconds * 1000, most: now + b.dataset.most * 1000 });
      keep();
      draw();
    });
  }
  draw();
  setInterval(draw, 500);
  window.addEventListener("pageshow", function (e) {
    if (!e.persisted) return;
    timers = read();
    draw();
    awake();
  });

  const hint = root.querySelector("[data-keys]");
  if (hint) hint.hidden = false;
  document.addEventListener("keydown", function (e) {
    if (e.altKey || e.ctrlKey || e.metaKey || e.shiftKey || /^(INPUT|SELECT|TEXTAREA)$/.test(e.target.tagName)) return;
    const rel = { ArrowLeft: "prev", ArrowRight: "next" }[e.key];
    const link = rel && root.querySelector('a[rel="' + rel + '"]');
    if (link) link.click();
  });

  const awake = function () {
    if (navigator.wakeLock && document.visibilityState === "visible") navigator.wakeLock.request("screen").catch(function () {});
  };
  document.addEventListener("visibilitychange", awake);
  awake();
})();
