// The look-up answers while typing, keeps what was typed and the last answer; the slider shows its levels while it moves;
// dropped files are taken.
// Every page works without this script; nothing here decides anything.
"use strict";
(function () {
  const ask = document.getElementById("ask");
  if (ask) lookUp(ask);
  const drop = document.getElementById("drop");
  if (drop) dropFiles(drop);
  const slider = document.getElementById("budget");
  if (slider) moveLevels(slider);

  function lookUp(form) {
    const answer = document.getElementById("answer");
    const print = document.getElementById("print");
    const keep = document.getElementById("keep");
    let timer = 0, turn = 0, asking = null;

    const query = () => new URLSearchParams(
      [...new FormData(form)].filter(([, value]) => value !== "")).toString();

    function remember(text, html) {
      try {
        localStorage.setItem("asked", text);
        if (html !== undefined) {
          localStorage.setItem("answer", html);
          localStorage.setItem("answered", text);
          localStorage.setItem("when", new Date().toLocaleString(document.documentElement.lang));
        }
      } catch { /* no room or not allowed: the page goes on without memory */ }
    }

    function ways(text) {
      print.hidden = keep.hidden = text === "";
      keep.href = "/answer.html?" + text;
    }

    async function find() {
      const text = query(), mine = ++turn;
      if (asking) asking.abort();
      asking = new AbortController();
      history.replaceState(null, "", text ? "/?" + text : "/");
      remember(text);
      try {
        const reply = await fetch("/answer?" + text, { signal: asking.signal });
        const html = await reply.text();
        if (mine !== turn) return;
        if (!reply.ok) return say(answer.dataset.noAnswer + ": " + reply.status);
        answer.innerHTML = html; // made by the server's escaping macros
        ways(text);
        remember(text, html);
      } catch (error) {
        if (error.name !== "AbortError" && mine === turn) lastAnswer();
      }
    }

    // Without network the last answer stays readable and printable.
    function lastAnswer() {
      let html = null, when = "";
      try {
        html = localStorage.getItem("answer");
        when = localStorage.getItem("when") || "";
      } catch { /* no memory: what stands there is the last answer */ }
      if (html !== null) answer.innerHTML = html; // as the server made it
      print.hidden = false;
      say(answer.dataset.noNetwork + (when ? " (" + when + ")" : ""));
    }

    function say(words) {
      let line = document.getElementById("offline");
      if (!line) {
        line = document.createElement("p");
        line.id = "offline";
        line.className = "offline";
        answer.before(line);
      }
      line.textContent = words;
    }

    // An O-ring has a section, a pin a length.
    function nameFigures() {
      for (const name of form.querySelectorAll("[data-names]")) {
        const names = JSON.parse(name.dataset.names);
        name.textContent = names[form.elements.kind.value] || names[""];
      }
    }

    form.addEventListener("input", () => {
      nameFigures();
      clearTimeout(timer);
      document.getElementById("offline")?.remove();
      timer = setTimeout(find, 150);
    });
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      clearTimeout(timer);
      find();
    });
    document.getElementById("clear").addEventListener("click", (event) => {
      event.preventDefault();
      for (const field of form.elements) {
        if (field.type === "checkbox") field.checked = false;
        else if (field.name) field.value = "";
      }
      nameFigures();
      find();
      form.elements.q.focus();
    });
    print.addEventListener("click", () => window.print());

    // After a screen lock or a reload the figures are there again.
    const given = location.search.slice(1);
    let kept = "";
    try { kept = localStorage.getItem("asked") || ""; } catch { /* no memory */ }
    if (given) ways(given);
    else if (kept) {
      for (const [name, value] of new URLSearchParams(kept)) {
        const field = form.elements[name];
        if (field && field.type === "checkbox") field.checked = true;
        else if (field) field.value = value;
      }
      find();
    }
    nameFigures();
  }

  function moveLevels(range) {
    const part = document.getElementById("levels-part"), now = document.getElementById("budget-now");
    let timer = 0, turn = 0, asking = null;
    const grouped = (text) => Number(text).toLocaleString(document.documentElement.lang);

    async function show() {
      const mine = ++turn;
      if (asking) asking.abort();
      asking = new AbortController();
      const query = "budget=" + encodeURIComponent(range.value);
      try {
        const reply = await fetch("/levels/part?" + query, { signal: asking.signal });
        const html = await reply.text();
        if (mine !== turn || !reply.ok) return;
        const open = part.querySelector("details")?.open;
        part.innerHTML = html; // made by the server's escaping macros
        if (open) part.querySelector("details")?.setAttribute("open", "");
        history.replaceState(null, "", "/levels?" + query);
      } catch { /* the next move or the button asks again */ }
    }

    range.addEventListener("input", () => {
      now.textContent = grouped(range.value);
      clearTimeout(timer);
      timer = setTimeout(show, 120);
    });
  }

  function dropFiles(form) {
    const zone = form.querySelector(".drop"), input = form.elements.files;
    for (const name of ["dragover", "dragenter"])
      zone.addEventListener(name, (event) => { event.preventDefault(); zone.classList.add("over"); });
    zone.addEventListener("dragleave", () => zone.classList.remove("over"));
    zone.addEventListener("drop", (event) => {
      event.preventDefault();
      zone.classList.remove("over");
      input.files = event.dataTransfer.files;
      if (input.files.length) form.requestSubmit();
    });
  }
})();
