// Everything works without this. It asks before typed words are left behind,
// and keeps a slow answer from being asked for twice.
"use strict";
(function () {
  let typed = false;
  document.addEventListener("input", function (e) {
    if (e.target.form && e.target.form.method === "post") typed = true;
  });
  document.addEventListener("submit", function (e) {
    if (e.target.dataset.sent) {
      e.preventDefault();
      return;
    }
    e.target.dataset.sent = "yes";
    typed = false;
  });
  window.addEventListener("pageshow", function () {
    for (const f of document.forms) delete f.dataset.sent;
  });
  window.addEventListener("beforeunload", function (e) {
    if (typed) e.preventDefault();
  });
})();
