// Everything works without this. It asks before typed words are left behind,
// keeps a slow answer from being asked for twice, and answers forms marked
// data-live in place.
"use strict";
(function () {
  let typed = false;
  let turn = 0;

  document.addEventListener("input", function (e) {
    if (e.target.form && e.target.form.method === "post") typed = true;
  });
  document.addEventListener("submit", function (e) {
    if (e.target.dataset.live) {
      e.preventDefault();
      answer(e.target, e.submitter);
      return;
    }
    if (e.target.dataset.sent) {
      e.preventDefault();
      return;
    }
    e.target.dataset.sent = "yes";
    typed = false;
  });
  document.addEventListener("change", function (e) {
    const form = e.target.form;
    if (form && form.dataset.live && e.target.type !== "file") answer(form, null);
  });
  window.addEventListener("pageshow", function () {
    for (const f of document.forms) delete f.dataset.sent;
  });
  window.addEventListener("beforeunload", function (e) {
    if (typed) e.preventDefault();
  });

  // answer sends the form as the browser would and puts the main part of the page
  // that comes back in place of this one's. Only the last of several counts.
  async function answer(form, button) {
    const mine = ++turn;
    const fields = new URLSearchParams(new FormData(form, button));
    const word = form.dataset.live;
    const post = form.method === "post";
    try {
      const reply = post ? await fetch(form.action, { method: "POST", body: fields }) : await fetch(form.action + "?" + fields);
      const text = await reply.text();
      if (mine !== turn) return;
      swap(new DOMParser().parseFromString(text, "text/html"), word);
      const at = new URL(reply.url);
      at.searchParams.delete("done");
      history.replaceState(null, "", at);
    } catch {
      if (mine === turn) form.submit();
    }
  }

  // swap keeps the place on the page: what has the focus, what is folded out, what
  // was typed into other forms.
  function swap(page, word) {
    const old = document.getElementById("page");
    const fresh = page.getElementById("page");
    const held = document.activeElement && old.contains(document.activeElement) ? document.activeElement : null;
    const top = held ? held.getBoundingClientRect().top : 0;
    const open = [...old.querySelectorAll("details[open]")].map(foldName);
    const kept = [...old.querySelectorAll("form:not([data-live]) input[type=text], form:not([data-live]) textarea")].filter((i) => i.value !== i.defaultValue);
    old.replaceWith(document.adoptNode(fresh));
    for (const d of fresh.querySelectorAll("details")) if (open.includes(foldName(d))) d.open = true;
    typed = false;
    for (const i of kept) {
      const now = fresh.querySelector(`form:not([data-live]) [name="${CSS.escape(i.name)}"]`);
      if (now) [now.value, typed] = [i.value, true];
    }
    const again = held && fresh.querySelector(selector(held));
    if (again) {
      again.focus({ preventScroll: true });
      window.scrollBy(0, again.getBoundingClientRect().top - top);
    } else if (held) {
      fresh.focus({ preventScroll: true });
    }
    const said = fresh.querySelector("#answer");
    document.getElementById("said").textContent = word + (said ? " " + said.textContent : "");
  }

  // foldName tells one part that folds out from another by the first field in it.
  function foldName(d) {
    const field = d.querySelector("[name]");
    return field ? field.name + "=" + (field.type === "checkbox" ? field.value : "") : d.querySelector("summary").textContent;
  }

  function selector(e) {
    if (e.name) {
      const one = e.type === "checkbox" || e.type === "radio" || e.tagName === "BUTTON";
      return `${e.tagName}[name="${CSS.escape(e.name)}"]` + (one ? `[value="${CSS.escape(e.value)}"]` : "");
    }
    return e.id ? "#" + CSS.escape(e.id) : "button:not([name])";
  }
})();
