// A note recorded in the page. What comes out is put into the form's own file field, so that it goes as any chosen sound does.
// Without this module, or where the browser gives no microphone, the field takes a sound recorded elsewhere.

import { localTime } from "./ids.js";

const KINDS = ["audio/webm;codecs=opus", "audio/mp4", "audio/ogg;codecs=opus"];
const ENDINGS = { "audio/webm": "webm", "audio/mp4": "m4a", "audio/ogg": "ogg" };
const WHY = {
  NotAllowedError: "The browser was told not to give the microphone. Allow it for this address in its settings, or choose a sound from this phone below.",
  NotFoundError: "There is no microphone here. Choose a sound from this phone below.",
};
const INSECURE = "Browsers give the microphone only to https or to this machine itself, and this address is neither. Record with the phone’s own recorder and choose its file below; the sheet Phone says how to get https.";
const NO_WAY = "This browser cannot record in a page. Record with the phone’s own recorder and choose its file below.";

/** `0:42` of seconds. */
export const shown = (seconds) => `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, "0")}`;

function asFile(pieces, type, at) {
  const plain = type.split(";")[0];
  return new File(pieces, `said-${localTime(at).replaceAll(":", "")}.${ENDINGS[plain] ?? "webm"}`, { type: plain });
}

class Recorder {
  constructor(form) {
    this.form = form;
    this.field = form.querySelector("input[type=file]");
    this.box = form.querySelector("[data-recorder]");
    [this.clock, this.says, this.heard] = ["clock", "recorder-says", "heard"].map((name) => form.querySelector(`[data-${name}]`));
    [this.record, this.stop] = ["record", "stop"].map((name) => document.querySelector(`[data-${name}="${form.id}"]`));
    this.record.addEventListener("click", () => (this.on ? this.finish(true) : this.begin()));
    this.stop.addEventListener("click", () => this.finish(false));
    this.field.addEventListener("change", () => this.chosen());
    this.box.hidden = false;
    const cannot = !globalThis.isSecureContext || !navigator.mediaDevices ? INSECURE : !globalThis.MediaRecorder ? NO_WAY : "";
    if (cannot) this.tell(cannot);
    this.clock.hidden = this.record.hidden = cannot !== "";
  }

  get on() {
    return this.machine?.state === "recording";
  }

  tell(sentence) {
    this.says.textContent = sentence;
  }

  async begin() {
    let stream;
    this.clock.textContent = shown(0);
    try {
      stream = await navigator.mediaDevices.getUserMedia({ audio: true });
    } catch (error) {
      this.tell(WHY[error.name] ?? `The microphone could not be opened (${error.name}). Choose a sound from this phone below.`);
      return;
    }
    const kind = KINDS.find((one) => MediaRecorder.isTypeSupported(one));
    this.machine = new MediaRecorder(stream, kind ? { mimeType: kind } : {});
    [this.pieces, this.at, this.kept] = [[], new Date(), false];
    this.machine.addEventListener("dataavailable", ({ data }) => data.size && this.pieces.push(data));
    this.machine.addEventListener("stop", () => this.done(stream));
    this.machine.start(1000);
    this.tick = setInterval(() => (this.clock.textContent = shown(this.seconds)), 250);
    this.look(true);
    this.tell("Recording. It stays on this phone until you keep it.");
  }

  get seconds() {
    return Math.floor((Date.now() - this.at) / 1000);
  }

  look(on) {
    this.box.classList.toggle("on", on);
    this.record.querySelector("span").textContent = on ? "Stop and keep it" : "Record again";
    this.stop.hidden = !on;
    document.querySelector("[data-keep]").hidden = on;
    if (on) this.heard.hidden = true;
  }

  /** `keep`: sent at once; else heard first. */
  finish(keep) {
    this.kept = keep;
    this.length = Math.max(1, this.seconds);
    this.machine.stop();
  }

  done(stream) {
    clearInterval(this.tick);
    for (const track of stream.getTracks()) track.stop();
    const file = asFile(this.pieces, this.machine.mimeType, this.at);
    this.look(false);
    if (file.size === 0) {
      this.tell("Nothing was recorded. Press once more.");
      return;
    }
    const list = new DataTransfer();
    list.items.add(file);
    this.field.files = list.files;
    this.form.elements.said_at.value = localTime(this.at);
    this.form.elements.seconds.value = this.length;
    this.form.elements.sound_kept.value = "";
    this.clock.textContent = shown(this.length);
    Object.assign(this.heard, { src: URL.createObjectURL(file), hidden: false });
    this.tell("Recorded. Hear it, record again, or keep it.");
    if (this.kept) this.form.requestSubmit();
  }

  /** A file from elsewhere: when it was said is not known. */
  chosen() {
    this.form.elements.said_at.value = this.form.elements.seconds.value = "";
    this.heard.hidden = true;
    this.tell("A chosen sound. When it was said is not known.");
  }
}

export const start = (form) => new Recorder(form);
