//! Chromium with a profile of its own, driven through its driver, and what a test does with a page:
//! open, fill, read, wait, look for barriers, take a picture.

use std::{
    fs,
    io::{BufRead, BufReader, Read, Write},
    net::{SocketAddr, TcpStream},
    os::unix::process::CommandExt,
    path::{Path, PathBuf},
    process::{Child, ChildStdout, Command, Stdio},
    sync::atomic::{AtomicU32, Ordering},
    time::{Duration, Instant, SystemTime, UNIX_EPOCH},
};

use serde_json::{Map, Value, json};
use thirtyfour::{By, WebDriver};

use super::release::scratch;

/// How long a test waits for something that should happen at once, on a machine that others may keep from it for a while.
const PATIENCE: Duration = Duration::from_secs(60);

/// A page in a running Chromium.
pub struct Chromium {
    // In this order: a failed test drops the driver program first, which ends Chromium.
    program: DriverProgram,
    /// The client, for whatever the helpers below do not offer.
    pub driver: WebDriver,
    setup: Setup,
}

/// How to start Chromium.
#[derive(Clone)]
pub struct Setup {
    profile: PathBuf,
    window: (u32, u32),
    apart: bool,
}

impl Setup {
    /// With an empty profile, named for the test.
    pub fn new(test: &str) -> Setup {
        Setup {
            profile: scratch(&format!("{test}-profile")),
            window: (1280, 900),
            apart: false,
        }
    }

    /// With a window of this size in CSS pixels.
    pub fn window(self, width: u32, height: u32) -> Setup {
        Setup {
            window: (width, height),
            ..self
        }
    }

    /// In a process group of its own, to be killed as one.
    pub fn apart(self) -> Setup {
        Setup { apart: true, ..self }
    }

    /// Starts Chromium.
    pub async fn start(self) -> Chromium {
        let program = DriverProgram::start(self.apart);
        let mut capabilities = common_capabilities();
        let logs = json!({ "browser": "ALL", "performance": "ALL" });
        capabilities.insert("goog:loggingPrefs".to_owned(), logs);
        let args = capabilities
            .get_mut("goog:chromeOptions")
            .and_then(|options| options["args"].as_array_mut())
            .expect("webdriver.json holds the arguments of Chromium");
        args.push(format!("--user-data-dir={}", self.profile.display()).into());
        args.push(format!("--window-size={},{}", self.window.0, self.window.1).into());
        // Chromium itself must not wait for hosts that it likes to greet.
        args.push("--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1".into());
        let driver = WebDriver::new(format!("http://{}", program.address), capabilities)
            .await
            .expect("Chromium starts");
        driver
            .set_script_timeout(PATIENCE)
            .await
            .expect("a time limit can be set");
        Chromium {
            program,
            driver,
            setup: self,
        }
    }
}

impl Chromium {
    /// Ends Chromium as its user would.
    pub async fn quit(self) -> Setup {
        self.driver.quit().await.expect("Chromium ends");
        drop(self.program);
        self.setup
    }

    /// Ends Chromium as a fault would: all its processes at once, in the midst of whatever they do. For [`Setup::apart`].
    pub fn kill(mut self) -> Setup {
        assert!(self.setup.apart, "without a group of its own, others would die with it");
        let group = format!("-{}", self.program.child.id());
        let killed = Command::new("kill").args(["-KILL", "--", &group]).status();
        assert!(killed.is_ok_and(|status| status.success()), "Chromium can be killed");
        self.program.child.wait().expect("the driver program has ended");
        // Its profile is free once none of them is left.
        let is_left = || {
            Command::new("kill")
                .args(["-0", "--", &group])
                .stderr(Stdio::null())
                .status()
        };
        while is_left().is_ok_and(|status| status.success()) {
            std::thread::sleep(Duration::from_millis(5));
        }
        // There is nobody left to take leave of.
        self.driver.leak().expect("it has not been left yet");
        self.setup
    }

    /// Opens a page and waits until it computes.
    pub async fn open(&self, url: &str) {
        self.driver.goto(url).await.expect("the page opens");
        self.ready().await;
    }

    /// Loads the page again and waits until it computes.
    pub async fn reload(&self) {
        self.driver.refresh().await.expect("the page loads again");
        self.ready().await;
    }

    /// Waits until the page computes.
    pub async fn ready(&self) {
        self.until("the page computes", "return document.body?.dataset.ready === 'yes'")
            .await;
    }

    /// Waits until the page would open without a network.
    pub async fn kept_offline(&self) {
        let ready = "navigator.serviceWorker.ready.then(() => arguments[0](true))";
        assert_eq!(self.finish(ready).await, json!(true));
        // `ready` resolves when activation begins.
        let active = "navigator.serviceWorker.getRegistration()
            .then((found) => arguments[0](found.active.state))";
        let begun = Instant::now();
        while self.finish(active).await != json!("activated") {
            assert!(begun.elapsed() < PATIENCE, "the service worker does not become active");
        }
    }

    /// Replaces the text of a field, key by key.
    pub async fn fill(&self, form: &str, field: &str, text: &str) {
        let selector = format!("#{form} [name='{field}']");
        let found = self.driver.find(By::Css(&*selector)).await;
        let field = found.unwrap_or_else(|e| panic!("no field {selector}: {e}"));
        field.clear().await.expect("the field can be emptied");
        field.send_keys(text).await.expect("the field takes text");
    }

    /// What a field holds.
    pub async fn value(&self, form: &str, field: &str) -> String {
        let script = format!("return document.forms['{form}'].elements['{field}'].value");
        self.run(&script).await.as_str().unwrap_or_default().to_owned()
    }

    /// Presses a button or link.
    pub async fn press(&self, selector: &str) {
        let found = self.driver.find(By::Css(selector)).await;
        let button = found.unwrap_or_else(|e| panic!("nothing at {selector}: {e}"));
        button
            .click()
            .await
            .unwrap_or_else(|e| panic!("cannot press {selector}: {e}"));
    }

    /// The text that can be seen at the first match of a selector, empty where nothing matches.
    pub async fn text(&self, selector: &str) -> String {
        let script = format!("return document.querySelector({})?.innerText ?? ''", json!(selector));
        self.run(&script).await.as_str().unwrap_or_default().to_owned()
    }

    /// Whether the first match of a selector can be seen.
    pub async fn shows(&self, selector: &str) -> bool {
        let found = format!("document.querySelector({})", json!(selector));
        let script = format!("return {found}?.checkVisibility({{ visibilityProperty: true }})");
        self.run(&script).await == json!(true)
    }

    /// Waits until some text stands at the first match of a selector.
    pub async fn until_text(&self, selector: &str, text: &str) {
        let begun = Instant::now();
        loop {
            let seen = self.text(selector).await;
            if seen.contains(text) {
                return;
            }
            assert!(
                begun.elapsed() < PATIENCE,
                "{selector} should say {text:?}, but says {seen:?}"
            );
            tokio::time::sleep(Duration::from_millis(20)).await;
        }
    }

    /// Waits until a script returns something true. `what` completes "waited in vain until".
    pub async fn until(&self, what: &str, script: &str) {
        let begun = Instant::now();
        loop {
            // While the page is being replaced there is no page to ask.
            let answer = self.driver.execute(script, Vec::new()).await;
            if matches!(&answer, Ok(returned) if truthy(returned.json())) {
                return;
            }
            if begun.elapsed() >= PATIENCE {
                let answer = answer.map(|returned| returned.json().clone());
                panic!("waited in vain until {what}: {answer:?}; {}", self.state().await);
            }
            tokio::time::sleep(Duration::from_millis(20)).await;
        }
    }

    /// How far the page has come and what Chromium complained of, for the one who reads why a test failed.
    async fn state(&self) -> String {
        let script = "return {
            address: location.href, document: document.readyState, said: document.getElementById('boot')?.innerText,
            worker: navigator.serviceWorker?.controller?.state,
            came: performance.getEntriesByType('resource').map((one) => [one.name, one.responseStatus, one.responseEnd]),
        }";
        let page = self.driver.execute(script, Vec::new()).await;
        let page = page.map(|returned| returned.json().to_string());
        let complaints = self.driver.browser_log().await;
        let complaints = complaints.map(|log| log.into_iter().map(|entry| entry.message).collect::<Vec<_>>());
        format!("{page:?}; {complaints:?}")
    }

    /// What a script returns.
    pub async fn run(&self, script: &str) -> Value {
        let returned = self.driver.execute(script, Vec::new()).await;
        returned.unwrap_or_else(|e| panic!("{script}: {e}")).json().clone()
    }

    /// What a script hands to `arguments[0]`, now or later.
    pub async fn finish(&self, script: &str) -> Value {
        let returned = self.driver.execute_async(script, Vec::new()).await;
        returned.unwrap_or_else(|e| panic!("{script}: {e}")).json().clone()
    }

    /// Sends a command of the DevTools protocol.
    pub async fn devtools(&self, method: &str, parameters: Value) -> Value {
        let returned = self.driver.cdp().send_raw(method, parameters).await;
        returned.unwrap_or_else(|e| panic!("{method}: {e}"))
    }

    /// Shows the page to someone who prefers `"dark"` or `"light"`.
    pub async fn prefer(&self, scheme: &str) {
        let features = json!([{ "name": "prefers-color-scheme", "value": scheme }]);
        self.devtools("Emulation.setEmulatedMedia", json!({ "features": features }))
            .await;
    }

    /// What Chromium has complained of since the last call: failed loads, refused requests,
    /// uncaught errors, whatever the page wrote to the console as an error.
    pub async fn complaints(&self) -> Vec<String> {
        let log = self.driver.browser_log().await.expect("the log can be read");
        log.into_iter()
            .filter(|e| e.level == "SEVERE")
            .map(|e| e.message)
            .collect()
    }

    /// The address of every request that pages in this tab have tried since the last call, Chromium's
    /// own pages left out, and addresses that hold their data themselves, such as its picture of a
    /// calendar. A service worker's are not among them.
    pub async fn requests(&self) -> Vec<String> {
        let log = self.driver.get_log("performance").await.expect("the log can be read");
        let mut addresses = Vec::new();
        for entry in log {
            let entry: Value = serde_json::from_str(&entry.message).expect("the log is JSON");
            let event = &entry["message"];
            let of_chromium = event["params"]["documentURL"]
                .as_str()
                .is_none_or(|page| page.starts_with("chrome:") || page.starts_with("chrome-"));
            if event["method"] == "Network.requestWillBeSent" && !of_chromium {
                let address = event["params"]["request"]["url"].as_str();
                let address = address.expect("a request has an address");
                if !address.starts_with("data:") {
                    addresses.push(address.to_owned());
                }
            }
        }
        addresses
    }

    /// What axe-core finds against the page as it stands: one line for each rule that is broken.
    pub async fn axe(&self) -> Vec<String> {
        let script = Path::new(env!("CARGO_MANIFEST_DIR")).join("target/tools/axe.min.js");
        let axe = fs::read_to_string(script).expect("target/tools/axe.min.js is there: `make test` fetches it");
        self.run(&axe).await;
        let found = self
            .finish(
                "axe.run().then(({ violations }) => arguments[0](violations.map((rule) =>
                    `${rule.id}: ${rule.help} (${rule.nodes.map((n) => n.target).join(', ')})`)),
                    (error) => arguments[0]([`axe failed: ${error}`]))",
            )
            .await;
        serde_json::from_value(found).expect("a list of sentences")
    }

    /// Keeps a picture of the window as `target/screenshots/NAME.png`.
    pub async fn picture(&self, name: &str) {
        let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("target/screenshots");
        fs::create_dir_all(&folder).expect("a folder can be made");
        let file = folder.join(format!("{name}.png"));
        self.driver.screenshot(&file).await.expect("a picture can be taken");
    }
}

/// The driver program. Dropping it ends it, and with it a Chromium that still runs.
struct DriverProgram {
    child: Child,
    address: SocketAddr,
    // The program would fail on writing to a closed pipe.
    _output: BufReader<ChildStdout>,
    _files: Temporary,
}

/// A folder for the temporary files of one Chromium, which leaves them behind when it is killed. Dropping it removes them.
struct Temporary(PathBuf);

impl Temporary {
    fn new() -> Temporary {
        static MADE: AtomicU32 = AtomicU32::new(0);
        let number = MADE.fetch_add(1, Ordering::Relaxed);
        // Chromium puts a socket there, whose address must be short: a folder of the system's own, not Cargo's.
        let folder = std::env::temp_dir().join(format!("meniscus-{}-{number}", std::process::id()));
        fs::create_dir_all(&folder).expect("a folder can be made");
        Temporary(folder)
    }
}

impl Drop for Temporary {
    fn drop(&mut self) {
        // A process that is just ending may still write there: then the system's own cleaning gets it.
        drop(fs::remove_dir_all(&self.0));
    }
}

impl DriverProgram {
    /// Starts it. Once in a while it picks a port that somebody has just taken, and ends: then again.
    fn start(apart: bool) -> DriverProgram {
        let mut said = Vec::new();
        while said.len() < 5 {
            match Self::try_to_start(apart) {
                Ok(program) => return program,
                Err(words) => said.push(words),
            }
        }
        panic!("the driver program does not name its port: {said:?}");
    }

    /// Starts it, or says what it said before it ended.
    fn try_to_start(apart: bool) -> Result<DriverProgram, String> {
        let program = std::env::var("CHROMEDRIVER").unwrap_or("chromedriver".to_owned());
        let mut command = Command::new(&program);
        if apart {
            command.process_group(0);
        }
        let files = Temporary::new();
        let mut child = command
            .args(["--port=0", "--log-level=SEVERE"])
            .env("TZ", where_it_is_noon())
            .env("TMPDIR", &files.0)
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .unwrap_or_else(|e| panic!("{program} does not start ({e}): `make test` installs it"));
        let mut output = BufReader::new(child.stdout.take().expect("its output is piped"));
        let mut said = String::new();
        let port = loop {
            let before = said.len();
            let read = output.read_line(&mut said).expect("its output can be read");
            if read == 0 {
                drop(child.wait());
                return Err(said);
            }
            let line = said[before..].trim_end().trim_end_matches('.');
            if let Some((_, port)) = line.split_once("started successfully on port ") {
                break port.parse().expect("the port is a number");
            }
        };
        Ok(DriverProgram {
            child,
            address: SocketAddr::from(([127, 0, 0, 1], port)),
            _output: output,
            _files: files,
        })
    }

    fn ask_to_end(&self) -> std::io::Result<()> {
        let mut stream = TcpStream::connect(self.address)?;
        stream.set_read_timeout(Some(Duration::from_secs(5)))?;
        write!(
            stream,
            "GET /shutdown HTTP/1.1\r\nHost: {}\r\nConnection: close\r\n\r\n",
            self.address
        )?;
        stream.read_to_end(&mut Vec::new()).map(drop)
    }
}

impl Drop for DriverProgram {
    fn drop(&mut self) {
        // Its port may be another's by now.
        if matches!(self.child.try_wait(), Ok(Some(_))) {
            return;
        }
        // Both may fail when it is just ending, and a test may be panicking: nothing to report.
        if self.ask_to_end().is_err() {
            drop(self.child.kill());
        }
        drop(self.child.wait());
    }
}

/// A time zone in which it is between noon and one o'clock now: in none of the tests a day ends.
fn where_it_is_noon() -> String {
    let since_1970 = SystemTime::now()
        .duration_since(UNIX_EPOCH)
        .expect("it is later than 1970");
    let hour = since_1970.as_secs() / 3600 % 24;
    // The sign is that of POSIX: what lies east of Greenwich is negative there.
    match hour {
        0..=12 => format!("Etc/GMT-{}", 12 - hour),
        _ => format!("Etc/GMT+{}", hour - 12),
    }
}

/// The capabilities that the unit tests in the browser use as well.
fn common_capabilities() -> Map<String, Value> {
    let text = include_str!("../../webdriver.json");
    serde_json::from_str(text).expect("webdriver.json is an object")
}

fn truthy(value: &Value) -> bool {
    !matches!(value, Value::Null | Value::Bool(false))
}
