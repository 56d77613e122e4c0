// The browser's own voice, for what no coach has recorded. Only one of this device: there may be no network, and what
// is said about a body goes to nobody.
const ownVoice = (language) => {
    const here = (globalThis.speechSynthesis?.getVoices() ?? []).filter((one) => one.localService);
    const spoken = (one) => one.lang.replace("_", "-");
    return here.find((one) => spoken(one) === language)
        ?? here.find((one) => spoken(one).split("-")[0] === language.split("-")[0]);
};
const PACE = 0.9;                                      // slower than people talk
const hush = () => globalThis.speechSynthesis?.cancel();
const say = (language, words) => {
    const voice = ownVoice(language);
    if (!voice) return;
    hush();                                            // a line that waited would come too late
    const line = new SpeechSynthesisUtterance(words);
    [line.voice, line.lang, line.rate] = [voice, voice.lang, PACE];
    speechSynthesis.speak(line);
};
// `hush`, or `say`, a language and the words, with a line end between
const voiceChannel = new BroadcastChannel("voice:" + pageFolder);
voiceChannel.onmessage = ({ data }) => {
    const [what, language, words] = String(data).split("\n");
    if (what === "hush") hush();
    if (what === "say" && words) say(language, words);
};
addEventListener("pagehide", hush);
globalThis.speechSynthesis?.addEventListener?.("voiceschanged", () => tellPage());
