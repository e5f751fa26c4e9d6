// Sends the bytes of one file by themselves: progress is seen, no time limit, and a line that drops costs that file only.

/** The SHA-256 under which the server has them. Refused when they did not arrive; `status` says what came back, 0 for nothing. */
export function sendBytes(bytes, progress = () => {}) {
  return new Promise((resolve, reject) => {
    const request = new XMLHttpRequest();
    const refuse = (status) => reject(Object.assign(new Error("not arrived"), { status, says: request.responseText }));
    request.open("POST", "/arriving");
    request.setRequestHeader("Accept", "application/json");
    request.setRequestHeader("Content-Type", "application/octet-stream");
    request.upload.onprogress = ({ loaded, total }) => progress(total ? loaded / total : 0);
    request.onerror = request.onabort = () => refuse(0);
    request.onload = () => (request.status === 200 ? resolve(JSON.parse(request.responseText).sha256) : refuse(request.status));
    request.send(bytes);
  });
}
