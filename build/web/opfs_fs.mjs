// A small file system for SQLite inside a web worker, on the browser's private file system.
//
// Files there can be read and written synchronously only through handles that were opened beforehand, and cannot be
// renamed while such a handle is held. So the folder holds a pool of slots, all open, and each slot begins with a
// head that says which file it is at present. Making, renaming and deleting a file is then writing a head, and the
// same code runs here as on a disk: copies beside the store, restoring, setting a damaged file aside.
//
// A head is written to two places in turn, with a rising number; the newer whole one counts. So a head that was cut
// short by a power cut leaves the older one in force.

const HEAD = 4096;          // bytes before the file's own; SQLite's pages stay aligned
const PLACES = [0, 2048];   // of the two heads
const HEAD_LINE = 1024;
const MARK = "evenload slot 1";
const SPARE = 10;           // free slots at each start: store and copies, each with a journal while it is written
const BLOCK = 65536;        // one call costs as much as copying hundreds of kilobytes, so files are read in blocks,
const MOST_HELD = 256;      // and that many of them are kept: whoever holds a handle is the only one to write the file
const ENOENT = 44, EEXIST = 20, EPERM = 63, EINVAL = 28, EIO = 29, ENOSPC = 51;

// Makes `folder` of the private file system appear at `point`. NoModificationAllowedError: another page holds it.
// NewerSlots: a newer version laid its files otherwise; nothing was changed.
export async function mount(FS, point, folder) {
  const slots = await openSlots(await folderOf(folder));
  const disk = new Disk(FS, slots);
  FS.mkdirTree(point);
  FS.mount({ mount: () => disk.root() }, {}, point);
  return {
    close() { FS.unmount(point); for (const slot of slots) { slot.handle.flush(); slot.handle.close(); } },
    flushes: () => disk.flushes,
  };
}

// One writer per store. True: held until this worker ends. False: another page has it.
export const claim = name => new Promise((done, failed) => navigator.locks.request(name, { ifAvailable: true },
  lock => { done(!!lock); return lock ? new Promise(() => {}) : undefined; }).catch(failed));

async function folderOf(path) {
  let dir = await navigator.storage.getDirectory();
  for (const part of path.split("/").filter(Boolean)) dir = await dir.getDirectoryHandle(part, { create: true });
  return dir;
}

async function openSlots(dir) {
  const names = [];
  for await (const name of dir.keys()) if (/^slot-\d+$/.test(name)) names.push(name);
  const opened = await Promise.allSettled(names.map(name => openSlot(dir, name)));
  const slots = opened.filter(one => one.value).map(one => one.value);
  try {
    for (const one of opened) if (one.reason) throw one.reason;
    settle(slots);
    let number = names.reduce((most, name) => Math.max(most, +name.slice(5)), 0);
    while (slots.filter(slot => !slot.name).length < SPARE) slots.push(await openSlot(dir, `slot-${++number}`));
  } catch (error) { for (const slot of slots) slot.handle.close(); throw error; }
  return slots;
}

async function openSlot(dir, name) {
  const file = await dir.getFileHandle(name, { create: true });
  const handle = await file.createSyncAccessHandle();
  try {
    const size = Math.max(0, handle.getSize() - HEAD);
    return { handle, dirty: false, size, blocks: new Map(), ...readHead(handle) };
  } catch (error) { handle.close(); throw error; }
}

// Two slots of one name: a rename was cut short between the new head and the old one's end. The newer counts.
function settle(slots) {
  const newest = new Map();
  for (const slot of slots.filter(slot => slot.name)) {
    const other = newest.get(slot.name);
    if (other && other.order > slot.order) slot.name = "";
    else { if (other) other.name = ""; newest.set(slot.name, slot); }
  }
}

function readHead(handle) {
  const found = PLACES.map((at, place) => {
    const bytes = new Uint8Array(HEAD_LINE), read = handle.read(bytes, { at });
    const [line, sum] = new TextDecoder().decode(bytes.subarray(0, read)).split("\n");
    if (!line || String(checksum(line)) !== sum) return null;
    const [mark, name, order, mtime] = JSON.parse(line);
    if (mark !== MARK) throw Object.assign(new Error(mark), { name: "NewerSlots" });   // never taken for a free one
    return { name, order, mtime, place };
  }).filter(Boolean).sort((a, b) => b.order - a.order);
  return found[0] ?? { name: "", order: 0, mtime: 0, place: 1 };
}

function checksum(text) {
  let sum = 0x811c9dc5;
  for (const byte of new TextEncoder().encode(text)) sum = Math.imul(sum ^ byte, 0x01000193) >>> 0;
  return sum;
}

class Disk {
  constructor(FS, slots) {
    Object.assign(this, { FS, slots, flushes: 0, held: 0, order: Math.max(0, ...slots.map(slot => slot.order)) });
    const refuse = () => { throw this.error(EPERM); };
    this.folder = {
      getattr: node => this.attributes(node), setattr() {}, readdir: () => this.names(),
      lookup: (parent, name) => this.lookup(parent, name), mknod: (parent, name, mode) => this.create(parent, name, mode),
      unlink: (parent, name) => this.unlink(name), rename: (node, parent, name) => this.rename(node, name),
      rmdir: refuse, symlink: refuse,
    };
    this.file = { getattr: node => this.attributes(node), setattr: (node, to) => this.change(node, to) };
    this.stream = {
      open() {}, close() {}, llseek: (stream, by, from) => this.seek(stream, by, from),
      read: (stream, buffer, at, length, from) => this.read(stream.node.slot, buffer.subarray(at, at + length), from),
      write: (stream, buffer, at, length, to) => this.write(stream.node.slot, buffer.subarray(at, at + length), to),
      fsync: stream => { this.flush(stream.node.slot); return 0; },
    };
  }

  error(code) { return new this.FS.ErrnoError(code); }

  // Only errors with a number reach the caller as such; anything else would end Python.
  asked(act) {
    try { return act(); } catch (error) { throw this.error(error.name === "QuotaExceededError" ? ENOSPC : EIO); }
  }

  root() {
    const node = this.FS.createNode(null, "/", 0o40700, 0);
    node.node_ops = this.folder;
    node.stream_ops = { llseek: (stream, by, from) => from === 1 ? stream.position + by : by };
    return node;
  }

  node(parent, name, slot, mode = 0o100600) {
    const node = this.FS.createNode(parent, name, mode, 0);
    return Object.assign(node, { slot, node_ops: this.file, stream_ops: this.stream });
  }

  find(name) { return this.slots.find(slot => slot.name === name); }

  found(name) {
    const slot = this.find(name);
    if (!slot) throw this.error(ENOENT);
    return slot;
  }

  names() { return [".", "..", ...this.slots.filter(slot => slot.name).map(slot => slot.name)]; }

  attributes(node) {
    const size = node.slot?.size ?? 4096, time = new Date(node.slot?.mtime ?? 0);
    return { dev: 1, ino: node.id, mode: node.mode, nlink: 1, uid: 0, gid: 0, rdev: 0, size, atime: time, mtime: time,
      ctime: time, blksize: 4096, blocks: Math.ceil(size / 4096) };
  }

  change(node, to) {
    if (to.size !== undefined) this.cut(node.slot, to.size);
    if (to.mode !== undefined) node.mode = to.mode;
  }

  lookup(parent, name) { return this.node(parent, name, this.found(name)); }

  create(parent, name, mode) {
    if (name.length > 200) throw this.error(EINVAL);
    if (this.find(name)) throw this.error(EEXIST);
    const slot = this.slots.find(slot => !slot.name);
    if (!slot) throw this.error(ENOSPC);
    this.empty(slot);
    slot.mtime = Date.now();
    this.head(slot, name);
    return this.node(parent, name, slot, mode);
  }

  unlink(name) {
    const slot = this.found(name);
    this.flushOthers(slot);
    this.free(slot);
  }

  rename(node, name) {
    const replaced = this.find(name);
    this.flushOthers(null);
    this.head(node.slot, name);
    if (replaced && replaced !== node.slot) {
      this.FS.hashRemoveNode(this.FS.lookupNode(node.parent, name));
      replaced.name = "";
      this.free(replaced);
    }
    node.name = name;
  }

  free(slot) {
    this.head(slot, "");
    this.empty(slot);
  }

  // Nothing of the last file may stay in a slot: it may have been erased on purpose.
  empty(slot) {
    this.asked(() => {
      if (slot.handle.getSize() > HEAD) { slot.handle.truncate(HEAD); slot.handle.flush(); }
    });
    this.sized(slot, 0, 0);
    slot.dirty = false;
  }

  head(slot, name) {
    const order = ++this.order, place = 1 - slot.place, bytes = new Uint8Array(HEAD_LINE);
    const line = JSON.stringify([MARK, name, order, slot.mtime]);
    bytes.set(new TextEncoder().encode(`${line}\n${checksum(line)}\n`));
    this.asked(() => { slot.handle.write(bytes, { at: PLACES[place] }); slot.handle.flush(); });
    Object.assign(slot, { name, order, place });
  }

  // SQLite here calls fdatasync, which does nothing in this build. So the order on disk is kept by us: before one
  // file is written or cut, every other file with unflushed writes is flushed. The journal thus lies on disk before
  // the store is changed, and the store before the journal is cut.
  flushOthers(slot) { for (const other of this.slots) if (other !== slot && other.dirty) this.flush(other); }

  flush(slot) {
    this.asked(() => slot.handle.flush());
    slot.dirty = false;
    this.flushes++;
  }

  cut(slot, size) {
    this.flushOthers(slot);
    this.asked(() => slot.handle.truncate(HEAD + size));
    this.sized(slot, Math.min(size, slot.size), size);
    slot.dirty = true;
    if (size === 0) this.flush(slot);   // a cut journal is what makes a commit hold
  }

  read(slot, into, from) {
    const end = Math.min(from + into.length, slot.size);
    for (let at = from; at < end;) {
      const within = at % BLOCK, part = this.block(slot, (at - within) / BLOCK).subarray(within, within + end - at);
      into.set(part, at - from);
      at += part.length;
    }
    return Math.max(0, end - from);
  }

  block(slot, number) {
    const kept = slot.blocks.get(number);
    if (kept) return kept;
    const bytes = new Int8Array(Math.min(BLOCK, slot.size - number * BLOCK));
    const read = this.asked(() => slot.handle.read(bytes, { at: HEAD + number * BLOCK }));
    if (read < bytes.length) throw this.error(EIO);
    if (++this.held > MOST_HELD) this.forget();
    slot.blocks.set(number, bytes);
    return bytes;
  }

  forget() {
    for (const slot of this.slots) slot.blocks.clear();
    this.held = 1;
  }

  // From `from` on nothing is as it was; the file has this size now.
  sized(slot, from, size) {
    for (const number of slot.blocks.keys()) if ((number + 1) * BLOCK > from) this.drop(slot, number);
    slot.size = size;
  }

  drop(slot, number) { if (slot.blocks.delete(number)) this.held--; }

  write(slot, bytes, to) {
    this.flushOthers(slot);
    slot.dirty = true;
    const first = Math.floor(Math.min(to, slot.size) / BLOCK), last = Math.floor((to + bytes.length) / BLOCK);
    for (let number = first; number <= last; number++) this.drop(slot, number);
    try {
      const written = this.asked(() => slot.handle.write(bytes, { at: HEAD + to }));
      if (written > bytes.length) throw this.error(ENOSPC);   // Chromium gives 2^32 - 8 where there is no room left
      slot.size = Math.max(slot.size, to + written);
      return written;
    } catch (error) {
      slot.size = Math.max(0, this.asked(() => slot.handle.getSize()) - HEAD);
      throw error;
    }
  }

  seek(stream, by, from) {
    const to = from === 1 ? stream.position + by : from === 2 ? stream.node.slot.size + by : by;
    if (to < 0) throw this.error(EINVAL);
    return to;
  }
}
