// The thread of a picture: it starts the module of scans once more and hands it every message.

import init, { take } from "./scan.js";

const started = init();

onmessage = async ({ data }) => {
  await started;
  take(data);
};

// The page listens for errors, and a promise that fails is none until it is thrown again.
onunhandledrejection = ({ reason }) => {
  setTimeout(() => {
    throw reason;
  });
};
