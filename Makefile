# The commands of this project. Beyond Rust (rustup), make and a C compiler they set up what they
# need themselves: tools below target/tools, and Chromium with its driver and npm through apt where
# that is allowed. The first run takes some ten minutes, later ones are quick.
#
#   make serve   the page at http://127.0.0.1:8080/
#   make test    every check
#   make build   the page as static files in dist/, for any host and any path
#   make bench   measurements

WASM_BINDGEN = 0.2.130
TRUNK = 0.21.14
AXE = 4.14.1

SHELL = /bin/sh
TOOLS = $(CURDIR)/target/tools
export PATH := $(TOOLS)/bin:$(PATH)

.PHONY: serve test build bench wasm tools chromium axe lint check
.NOTPARALLEL:

serve: tools
	@echo '== The page, at http://127.0.0.1:8080/ once it is built (end with Ctrl-C)'
	@cargo build --example assets
	@trunk serve --release --offline --address 127.0.0.1 --port 8080

build: tools
	@echo '== The page, built into dist/'
	@cargo build --example assets
	@trunk build --release --offline

# What fails quickly comes first, and dist/ is there before the tests that look at it.
test: lint chromium axe build check

bench: tools chromium build
	@echo '== The core, natively'
	@cargo bench --bench sheet
	@cargo bench --bench ledger
	@echo '== The page, in Chromium'
	@cargo bench --profile dev --bench page
	@cargo bench --profile dev --bench shelf
	@cargo bench --profile dev --bench scan
	@CHROMEDRIVER="$$(command -v chromedriver)" WASM_BINDGEN_TEST_TIMEOUT=120 \
	  CARGO_TARGET_WASM32_UNKNOWN_UNKNOWN_RUNNER=wasm-bindgen-test-runner \
	  cargo bench --profile release --target wasm32-unknown-unknown --bench module

lint: wasm
	@cargo fmt --version >/dev/null 2>&1 && cargo clippy --version >/dev/null 2>&1 || \
	  rustup component add rustfmt clippy || { \
	    echo 'The checks need rustfmt and clippy: add them with "rustup component add rustfmt clippy".'; \
	    exit 1; }
	@echo '== Format'
	@cargo fmt --check
	@echo '== Clippy, for this machine and for the page'
	@cargo clippy --all-targets -- -D warnings
	@cargo clippy --target wasm32-unknown-unknown --lib --test page -- -D warnings
	@cargo clippy --target wasm32-unknown-unknown --lib --features annex -- -D warnings
	@cargo clippy --target wasm32-unknown-unknown --lib --features scan -- -D warnings
	@cargo clippy --target wasm32-unknown-unknown --lib --features day -- -D warnings
	@echo '== Documentation, for this machine and for the page'
	@RUSTDOCFLAGS='-D warnings' cargo doc --quiet --no-deps
	@RUSTDOCFLAGS='-D warnings' cargo doc --quiet --no-deps --target wasm32-unknown-unknown
	@RUSTDOCFLAGS='-D warnings' cargo doc --quiet --no-deps --target wasm32-unknown-unknown --features annex
	@RUSTDOCFLAGS='-D warnings' cargo doc --quiet --no-deps --target wasm32-unknown-unknown --features scan
	@RUSTDOCFLAGS='-D warnings' cargo doc --quiet --no-deps --target wasm32-unknown-unknown --features day

check:
	@echo '== Tests on this machine, then of dist/ in Chromium'
	@cargo test
	@echo '== Tests of the module in Chromium'
	@CHROMEDRIVER="$$(command -v chromedriver)" \
	  CARGO_TARGET_WASM32_UNKNOWN_UNKNOWN_RUNNER=wasm-bindgen-test-runner \
	  cargo test --target wasm32-unknown-unknown --test page
	@echo '== All checks passed'

# The page's target, and the packages that later steps use without asking the network again.
wasm:
	@test -d "$$(rustc --print sysroot)/lib/rustlib/wasm32-unknown-unknown" || { \
	  echo '== Adding the target wasm32-unknown-unknown'; \
	  rustup target add wasm32-unknown-unknown; } || { \
	    echo 'The page needs the target wasm32-unknown-unknown, and rustup could not add it.'; \
	    echo 'Install Rust through rustup, connect to the network once, and try again.'; \
	    exit 1; }
	@cargo fetch --quiet

# Built without optimisation: they are only tools, and build in less than half the time.
tools: wasm
	@test "$$(wasm-bindgen --version 2>/dev/null)" = 'wasm-bindgen $(WASM_BINDGEN)' && \
	 test "$$(wasm-bindgen-test-runner --version 2>/dev/null)" = \
	   'wasm-bindgen-test-runner $(WASM_BINDGEN)' || { \
	  echo '== Building wasm-bindgen-cli $(WASM_BINDGEN) into target/tools (about two minutes, once)'; \
	  CARGO_PROFILE_DEV_DEBUG=0 cargo install wasm-bindgen-cli --version $(WASM_BINDGEN) \
	    --debug --root '$(TOOLS)'; }
	@test "$$(trunk --version 2>/dev/null)" = 'trunk $(TRUNK)' || { \
	  echo '== Building trunk $(TRUNK) into target/tools (some four minutes, once)'; \
	  CARGO_PROFILE_DEV_DEBUG=0 cargo install trunk --version $(TRUNK) --locked \
	    --debug --root '$(TOOLS)'; }

chromium:
	@command -v chromedriver >/dev/null && \
	 command -v chromium >/dev/null || { \
	  if [ "$$(id -u)" = 0 ] && command -v apt-get >/dev/null; then \
	    echo '== Installing Chromium and its driver'; \
	    apt-get update && DEBIAN_FRONTEND=noninteractive apt-get install -y chromium chromium-driver; \
	  else \
	    echo 'The browser tests need Chromium and chromedriver of the same version on the PATH.'; \
	    echo 'On Debian: apt-get install chromium chromium-driver (as root). Then run this again.'; \
	    exit 1; \
	  fi; }
	@browser="$$(command -v chromium)"; \
	 chromedriver --version >/dev/null && \
	 "$$browser" --headless=new --no-sandbox --disable-gpu --disable-background-networking \
	   --no-first-run --user-data-dir="$(TOOLS)/chromium-start" --dump-dom about:blank \
	   2>/dev/null | grep -q '<body>' || { \
	    echo "$$browser or chromedriver is installed but does not start; try it by hand:"; \
	    echo "$$browser --headless=new --no-sandbox --disable-gpu --dump-dom about:blank"; \
	    exit 1; }

# The accessibility checks. npm only unpacks the package: no script of it runs outside Chromium.
axe:
	@grep -qs 'axe v$(AXE)' '$(TOOLS)/axe.min.js' || { \
	  command -v npm >/dev/null || { \
	    if [ "$$(id -u)" = 0 ] && command -v apt-get >/dev/null; then \
	      echo '== Installing npm, to fetch axe-core'; \
	      apt-get update && \
	        DEBIAN_FRONTEND=noninteractive apt-get install -y --no-install-recommends npm; \
	    else \
	      echo 'The accessibility checks need npm, to fetch axe-core: install Node.js with npm.'; \
	      exit 1; \
	    fi; } && \
	  echo '== Fetching axe-core $(AXE)' && \
	  npm install --prefix '$(TOOLS)/npm' --no-save --ignore-scripts --no-audit --no-fund \
	    axe-core@$(AXE) && \
	  cp '$(TOOLS)/npm/node_modules/axe-core/axe.min.js' '$(TOOLS)/axe.min.js'; }
