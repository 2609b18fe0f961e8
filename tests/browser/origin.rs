//! Nothing leaves for another host, nothing is asked of the own host outside the page's folder, and
//! the page's own policy would stop whatever tried.

use std::fs;

use serde_json::Value;

use super::{
    chromium::Setup,
    release::{built, shelf},
    site::{REPORTS, Site},
};

const PREFIX: &str = "/a/path/of/its/own/";

#[tokio::test]
async fn is_the_only_one_that_gets_requests() {
    let site = Site::serve(&built(), PREFIX);
    let page = Setup::new("origin").start().await;
    let astray = |asked: Vec<String>, home: &str| -> Vec<String> {
        assert!(asked.iter().any(|address| address == home), "{asked:?}");
        asked.into_iter().filter(|address| !address.starts_with(home)).collect()
    };

    page.open(&site.url()).await;
    page.kept_offline().await;
    page.fill("mix", "total", "400 ml").await;
    page.reload().await;
    page.fill("mix", "total", "300 ml").await;
    page.run("location.hash = 'shelf'").await;
    page.until(
        "the shelf is here",
        "return document.getElementById('shelf-coming').hidden",
    )
    .await;
    site.until_asked(&format!("{PREFIX}{}", shelf(&built()))).await;
    assert_eq!(astray(page.requests().await, &site.url()), [""; 0]);
    assert_eq!(astray(site.requests(), PREFIX), [""; 0]);
    assert_eq!(page.complaints().await, [""; 0]);

    // All of it would have been noticed: a page that tries to load from elsewhere,
    page.finish(
        "const picture = new Image();
        picture.onerror = () => arguments[0]();
        picture.src = 'http://elsewhere.example/picture';",
    )
    .await;
    assert_eq!(page.requests().await, ["http://elsewhere.example/picture"]);
    let complaints = page.complaints().await;
    assert_eq!(complaints.len(), 1, "{complaints:?}");
    assert!(complaints[0].contains("Content Security Policy"), "{complaints:?}");

    // one that gets a script written into it,
    page.run(
        "const script = document.createElement('script');
        script.textContent = 'window.injected = true';
        document.body.append(script);",
    )
    .await;
    assert_eq!(page.run("return window.injected ?? null").await, Value::Null);
    assert_eq!(page.complaints().await.len(), 1);

    // and a service worker that tries to leave.
    let worker = fs::read_to_string(built().join("sw.js")).expect("the service worker is text");
    let worker = format!("{worker}\nfetch('http://elsewhere.example/').catch(() => {{}});");
    site.change("sw.js", worker.as_bytes());
    page.finish(
        "navigator.serviceWorker.getRegistration()
            .then((registration) => registration.update())
            .then(() => arguments[0]())",
    )
    .await;
    site.until_asked(REPORTS).await;
    page.quit().await;
}
