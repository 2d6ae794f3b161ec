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
    if (form && form.dataset.live && !("wait" in form.dataset)) answer(form, null);
  });
  document.addEventListener("click", function (e) {
    const link = e.target.closest("a[data-here]");
    if (link && !e.ctrlKey && !e.metaKey && !e.shiftKey) {
      e.preventDefault();
      openHere(link);
      return;
    }
    const back = e.target.closest(".here .actions a.button");
    if (back) {
      e.preventDefault();
      const line = back.closest("li");
      back.closest(".here").remove();
      line.querySelector("a[data-here]").focus();
    }
  });
  window.addEventListener("pageshow", function () {
    for (const f of document.forms) delete f.dataset.sent;
  });
  window.addEventListener("beforeunload", function (e) {
    if (typed) e.preventDefault();
  });

  for (const b of document.querySelectorAll("button[data-print]")) {
    b.hidden = false;
    b.addEventListener("click", () => window.print());
  }

  // openHere puts the form of the page that a link leads to under the link's line.
  async function openHere(link) {
    const line = link.closest("li");
    const open = line.querySelector(".here");
    if (open) {
      open.querySelector("input:not([type=hidden])").focus();
      return;
    }
    try {
      const reply = await fetch(link.href);
      const page = new DOMParser().parseFromString(await reply.text(), "text/html");
      const here = document.createElement("div");
      here.className = "here";
      here.append(inPlace(page.querySelector("#page form.fix")));
      for (const other of document.querySelectorAll(".here")) other.remove(); // ids stay their own
      line.append(here);
      here.querySelector("input:not([type=hidden])").focus();
    } catch {
      location.href = link.href;
    }
  }

  // inPlace lets a form of another page answer here, once its button is pressed.
  function inPlace(form) {
    form.dataset.live = "Corrected.";
    form.dataset.wait = "";
    return document.adoptNode(form);
  }

  // answer sends the form as the browser would and puts the main part of the page
  // that comes back in place of this one's. Only the last of several counts.
  async function answer(form, button) {
    const mine = ++turn;
    const fields = new URLSearchParams(new FormData(form, button));
    const word = form.dataset.live;
    const post = (button && button.hasAttribute("formmethod") ? button.formMethod : form.method) === "post";
    const to = button && button.hasAttribute("formaction") ? button.formAction : form.action;
    try {
      const reply = post ? await fetch(to, { method: "POST", body: fields }) : await fetch(to + "?" + fields);
      const text = await reply.text();
      if (mine !== turn) return;
      const page = new DOMParser().parseFromString(text, "text/html");
      const again = page.querySelector("#page form.fix");
      if (form.closest(".here") && again) {
        form.replaceWith(inPlace(again));
        again.querySelector("[name=food], [aria-invalid]").focus();
        return;
      }
      swap(page, word);
      document.title = page.title;
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
