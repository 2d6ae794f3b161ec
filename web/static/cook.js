// The cooking pages work without this. It runs timers that go on from step to
// step and in every window, keeps the screen awake, and answers to single keys.
"use strict";
(function () {
  const root = document.querySelector("[data-cook]");
  if (!root) return;
  const key = "timers";
  const forgotten = 12 * 3600 * 1000; // ms after its end a timer is taken for left over
  const again = 30 * 1000; // ms between two rings
  const title = document.title;
  const shelf = root.querySelector("[data-running]");
  const read = function () {
    try {
      const list = JSON.parse(localStorage.getItem(key) || "[]");
      return Array.isArray(list) ? list.filter((t) => t && t.end > Date.now() - forgotten) : [];
    } catch (e) {
      return [];
    }
  };
  let timers = read();
  const keep = function () {
    try {
      localStorage.setItem(key, JSON.stringify(timers));
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
  // A page may sound only once it was touched; touching any page of the site counts.
  let sound = null;
  const hear = function () {
    if (!sound && window.AudioContext) sound = new AudioContext();
    if (sound && sound.state === "suspended") sound.resume();
  };
  const ring = function () {
    if (navigator.vibrate) navigator.vibrate([400, 200, 400]);
    hear();
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
  const drop = function (t) {
    timers = read().filter((x) => x.id !== t.id);
    keep();
    draw();
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
    stop.addEventListener("click", () => drop(t));
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
      if (Date.now() >= (t.next || t.end)) {
        t.next = Date.now() + again;
        keep();
        ring();
      }
    }
    const over = timers.filter((t) => t.end <= Date.now());
    document.title = over.length ? "Time is up: " + over[0].name + " – " + title : title;
  };
  for (const b of root.querySelectorAll("button[data-seconds]")) {
    b.hidden = false;
    b.addEventListener("click", function () {
      const now = Date.now();
      hear();
      timers.push({ id: now + "-" + timers.length, dish: root.dataset.dish, name: b.dataset.name,
        end: now + b.dataset.seconds * 1000, most: now + b.dataset.most * 1000 });
      keep();
      draw();
      b.textContent = "Start it again";
    });
  }
  draw();
  setInterval(draw, 500);
  window.addEventListener("storage", function (e) {
    if (e.key !== key) return;
    timers = read();
    draw();
  });
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
    const rel = { ArrowLeft: "prev", ArrowRight: "next", Home: "first" }[e.key];
    const link = rel && root.querySelector('a[rel="' + rel + '"]');
    if (link) {
      e.preventDefault();
      link.click();
    } else if (e.key === "Escape") {
      const over = timers.find((t) => t.end <= Date.now());
      if (over) drop(over);
    } else if (e.key === "Enter" && e.target === document.body) {
      // Of a step with several times the next one starts with every press.
      const starts = [...root.querySelectorAll("button[data-seconds]")];
      const next = starts.find((b) => !b.dataset.started) || starts[0];
      if (!next) return;
      next.dataset.started = "yes";
      next.click();
    }
  });

  // Browsers keep the screen on only for pages from this computer or over HTTPS.
  const told = root.querySelector("[data-awake]");
  const tell = function (words) {
    told.textContent = words;
    told.hidden = false;
  };
  const dark = "This browser may let the screen go dark. Let it stay on longer in the device’s own settings while you cook.";
  const awake = function () {
    if (document.visibilityState !== "visible") return;
    if (!navigator.wakeLock) {
      tell(dark);
      return;
    }
    navigator.wakeLock.request("screen").then(() => tell("The screen stays on while this page is open."), () => tell(dark));
  };
  document.addEventListener("visibilitychange", awake);
  awake();
})();
