//! A static host in this process: one folder under a path prefix, on a port of its own. It can be
//! stopped and started again, can serve single files changed, and keeps a list of all requests.
//!
//! Every connection carries one request, so that nothing is answered over an old connection once
//! the host has stopped.

use std::{
    collections::BTreeMap,
    fs,
    io::{BufRead, BufReader, Read, Write},
    net::{SocketAddr, TcpListener, TcpStream},
    path::{Path, PathBuf},
    sync::{
        Arc, Mutex, MutexGuard,
        atomic::{AtomicBool, Ordering},
    },
    thread::{self, JoinHandle},
    time::Duration,
};

/// Where Chromium reports whatever a page or service worker of this host tried to load from
/// elsewhere.
pub const REPORTS: &str = "/tried-to-leave";

/// The host. Dropping it stops it.
pub struct Site {
    address: SocketAddr,
    shared: Arc<Shared>,
    listening: Option<JoinHandle<()>>,
}

struct Shared {
    prefix: String,
    stopped: AtomicBool,
    content: Mutex<Content>,
    requests: Mutex<Vec<String>>,
}

struct Content {
    folder: PathBuf,
    changed: BTreeMap<String, Vec<u8>>,
}

struct Reply {
    status: &'static str,
    kind: &'static str,
    cache: &'static str,
    body: Vec<u8>,
}

impl Site {
    /// Serves `folder` under `prefix`, which begins and ends with a slash.
    pub fn serve(folder: &Path, prefix: &str) -> Site {
        let listener = TcpListener::bind("127.0.0.1:0").expect("a free port");
        let mut site = Site {
            address: listener.local_addr().expect("the listener has an address"),
            shared: Arc::new(Shared {
                prefix: prefix.to_owned(),
                stopped: AtomicBool::new(false),
                content: Mutex::new(Content {
                    folder: folder.to_owned(),
                    changed: BTreeMap::new(),
                }),
                requests: Mutex::new(Vec::new()),
            }),
            listening: None,
        };
        site.listen(listener);
        site
    }

    /// The address of the page.
    pub fn url(&self) -> String {
        format!("http://{}{}", self.address, self.shared.prefix)
    }

    /// Refuses connections from now on.
    pub fn stop(&mut self) {
        self.shared.stopped.store(true, Ordering::SeqCst);
        // The listening thread looks at the flag when something arrives.
        drop(TcpStream::connect(self.address));
        if let Some(thread) = self.listening.take() {
            thread.join().expect("the host ended without a panic");
        }
    }

    /// Serves again, at the same address.
    pub fn start(&mut self) {
        let listener = TcpListener::bind(self.address).expect("the port is still free");
        self.shared.stopped.store(false, Ordering::SeqCst);
        self.listen(listener);
    }

    /// Serves another folder at the same address.
    pub fn deploy(&self, folder: &Path) {
        let mut content = locked(&self.shared.content);
        content.folder = folder.to_owned();
        content.changed.clear();
    }

    /// Serves these bytes instead of the file at `path` (relative to the page).
    pub fn change(&self, path: &str, bytes: &[u8]) {
        locked(&self.shared.content)
            .changed
            .insert(path.to_owned(), bytes.to_owned());
    }

    /// Serves all files as they are in the folder again.
    pub fn restore(&self) {
        locked(&self.shared.content).changed.clear();
    }

    /// The path of every request so far.
    pub fn requests(&self) -> Vec<String> {
        locked(&self.shared.requests).clone()
    }

    /// Waits until this path has been asked for.
    pub async fn until_asked(&self, path: &str) {
        for _ in 0..500 {
            if self.requests().iter().any(|asked| asked == path) {
                return;
            }
            tokio::time::sleep(Duration::from_millis(20)).await;
        }
        panic!("nobody asked for {path}, only for {:?}", self.requests());
    }

    fn listen(&mut self, listener: TcpListener) {
        let shared = Arc::clone(&self.shared);
        self.listening = Some(thread::spawn(move || {
            for stream in listener.incoming() {
                if shared.stopped.load(Ordering::SeqCst) {
                    break;
                }
                let shared = Arc::clone(&shared);
                // A browser opens connections ahead of need and may break them off: no error.
                thread::spawn(move || stream.and_then(|stream| shared.answer(stream)));
            }
        }));
    }
}

impl Drop for Site {
    fn drop(&mut self) {
        if self.listening.is_some() {
            self.stop();
        }
    }
}

impl Shared {
    fn answer(&self, mut stream: TcpStream) -> std::io::Result<()> {
        stream.set_read_timeout(Some(Duration::from_secs(10)))?;
        let mut lines = BufReader::new(stream.try_clone()?.take(64 * 1024)).lines();
        let first = lines.next().unwrap_or(Ok(String::new()))?;
        let Some(target) = first.split(' ').nth(1) else {
            return Ok(());
        };
        for line in lines {
            if line?.is_empty() {
                break;
            }
        }
        if self.stopped.load(Ordering::SeqCst) {
            return Ok(());
        }
        locked(&self.requests).push(target.to_owned());
        let Reply {
            status,
            kind,
            cache,
            body,
        } = self.find(target).unwrap_or(Reply {
            status: "404 Not Found",
            kind: "text/plain",
            cache: "no-store",
            body: b"not here".to_vec(),
        });
        write!(
            stream,
            "HTTP/1.1 {status}\r\nContent-Type: {kind}\r\nContent-Length: {}\r\n\
             Cache-Control: {cache}\r\nConnection: close\r\nContent-Security-Policy: \
             default-src 'self' 'wasm-unsafe-eval'; report-uri {REPORTS}\r\n\r\n",
            body.len()
        )?;
        stream.write_all(&body)
    }

    fn find(&self, target: &str) -> Option<Reply> {
        let path = target.split(['?', '#']).next()?.strip_prefix(&self.prefix)?;
        let path = if path.is_empty() { "index.html" } else { path };
        let kind = match path.rsplit('.').next()? {
            "html" => "text/html; charset=utf-8",
            "js" => "text/javascript",
            "css" => "text/css",
            "wasm" => "application/wasm",
            "svg" => "image/svg+xml",
            "png" => "image/png",
            "webmanifest" => "application/manifest+json",
            _ => "application/octet-stream",
        };
        let content = locked(&self.content);
        let (cache, body) = match content.changed.get(path) {
            Some(bytes) => ("no-store", bytes.clone()),
            None if path.contains("..") => return None,
            // As many hosts say: the page must not take a file of the last release for a new one.
            None => ("max-age=600", fs::read(content.folder.join(path)).ok()?),
        };
        Some(Reply {
            status: "200 OK",
            kind,
            cache,
            body,
        })
    }
}

fn locked<T>(mutex: &Mutex<T>) -> MutexGuard<'_, T> {
    mutex.lock().expect("no thread panicked while it held this")
}
