// Pictures shared to Studbay from the phone's own gallery.

import { freshId, localTime } from "./ids.js";
import * as store from "./store.js";

/** Pictures that were shared to Studbay wait with everything else that is not sent. */
export async function shared(request) {
  const data = await request.formData();
  const files = data.getAll("pictures").filter((one) => one instanceof File && one.size);
  const { base = "" } = (await store.known("build").catch(() => null)) ?? {};
  if (files.length && base) {
    const [first] = files;
    const id = freshId();
    const what = files.length === 1 ? `Shared picture ${first.name}` : `${files.length} shared pictures`;
    for (const [number, file] of files.entries()) await store.keepBytes(id, number, await file.arrayBuffer());
    await store.keep({
      id, turn: freshId(), at: localTime(new Date()), seen: "", action: `${base}/pictures`, page: `${base}/pictures`, what, state: "waiting", says: "", fields: [],
      files: files.map(({ name, type, size, lastModified }) => ({ field: "pictures", name, type, size, modified: lastModified, kept: "" })),
    });
  }
  return Response.redirect("/not-sent", 303);
}
