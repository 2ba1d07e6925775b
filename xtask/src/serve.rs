//! The page on this machine alone: `cargo xtask explore` and `cargo xtask serve`.

use std::io::ErrorKind;
use std::net::{Ipv4Addr, SocketAddr, TcpListener};

use anyhow::{Context, Result, bail};
use axum::Router;
use axum::extract::Request;
use axum::http::{HeaderMap, HeaderName, HeaderValue, StatusCode, header};
use axum::middleware::{self, Next};
use axum::response::{IntoResponse, Response};
use tower_http::services::ServeDir;

use crate::{page, shell, wasm};

const PORT: u16 = 8100;

/// What the page may load: its own files, nothing from anywhere else.
const CONTENT_SECURITY_POLICY: &str = "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; \
    style-src 'self'; font-src 'self'; img-src 'self' data:; connect-src 'self'; worker-src 'self'; \
    manifest-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'";

/// Builds the page and serves it, on the next free port where the wanted one is taken.
pub fn explore(port: Option<u16>) -> Result<()> {
    page::check_node()?;
    wasm::build()?;
    page::tables()?;
    page::install_if_needed()?;
    page::build()?;
    let first = port.unwrap_or(PORT);
    for port in first..=first.saturating_add(50) {
        if let Some(listener) = listen(port)? {
            return answer(listener);
        }
    }
    bail!("no free port from {first} on; name another with --port");
}

/// Serves `web/dist` as it is, on exactly the wanted port: a test must meet this server or none.
pub fn serve(port: Option<u16>) -> Result<()> {
    let port = port.unwrap_or(PORT);
    match listen(port)? {
        Some(listener) => answer(listener),
        None => bail!("port {port} is taken; name another with --port"),
    }
}

fn listen(port: u16) -> Result<Option<TcpListener>> {
    match TcpListener::bind(SocketAddr::from((Ipv4Addr::LOCALHOST, port))) {
        Ok(listener) => Ok(Some(listener)),
        Err(error) if error.kind() == ErrorKind::AddrInUse => Ok(None),
        Err(error) => Err(error).with_context(|| format!("port {port}")),
    }
}

fn answer(listener: TcpListener) -> Result<()> {
    let folder = shell::root().join("web/dist");
    if !folder.join("index.html").is_file() {
        bail!("web/dist/index.html is missing: `cargo xtask explore` builds it");
    }
    let address = listener.local_addr()?;
    listener.set_nonblocking(true)?;
    let routes = Router::new()
        .fallback_service(
            ServeDir::new(folder)
                .precompressed_br()
                .precompressed_gzip(),
        )
        .layer(middleware::from_fn(guarded));
    tokio::runtime::Builder::new_current_thread()
        .enable_io()
        .build()?
        .block_on(async {
            let listener = tokio::net::TcpListener::from_std(listener)?;
            println!("\nCombcast is at http://{address}/ (end with Ctrl-C)");
            axum::serve(listener, routes).await
        })?;
    Ok(())
}

/// Refuses strangers and puts the headers of safety and caching on each answer.
async fn guarded(request: Request, next: Next) -> Response {
    if !is_this_machine(request.headers()) {
        return (
            StatusCode::MISDIRECTED_REQUEST,
            "This server answers to 127.0.0.1 and localhost only.\n",
        )
            .into_response();
    }
    // Their names carry a digest of what is in them.
    let lasting = request.uri().path().starts_with("/assets/");
    let mut response = next.run(request).await;
    let lasting = lasting && response.status().is_success();
    for (name, value) in [
        (header::CONTENT_SECURITY_POLICY, CONTENT_SECURITY_POLICY),
        (header::X_CONTENT_TYPE_OPTIONS, "nosniff"),
        (header::REFERRER_POLICY, "no-referrer"),
        (
            header::CACHE_CONTROL,
            if lasting {
                "public, max-age=31536000, immutable"
            } else {
                "no-cache"
            },
        ),
    ] as [(HeaderName, &'static str); 4]
    {
        response
            .headers_mut()
            .insert(name, HeaderValue::from_static(value));
    }
    // As many hosts of static files do: what the page keeps for offline has to be found all the same.
    let vary = HeaderValue::from_static("origin");
    response.headers_mut().append(header::VARY, vary);
    response
}

/// Whether the request names this machine as its host.
///
/// Otherwise any web site could give its own name this machine's address and read the answers.
fn is_this_machine(headers: &HeaderMap) -> bool {
    let Some(host) = headers
        .get(header::HOST)
        .and_then(|host| host.to_str().ok())
    else {
        return false;
    };
    let name = host.rsplit_once(':').map_or(host, |(name, _)| name);
    name == "127.0.0.1" || name.eq_ignore_ascii_case("localhost")
}

#[cfg(test)]
mod tests {
    use super::*;

    fn answers_to(host: &str) -> bool {
        let mut headers = HeaderMap::new();
        headers.insert(header::HOST, host.parse().unwrap());
        is_this_machine(&headers)
    }

    #[test]
    fn only_this_machine_is_answered() {
        assert!(answers_to("127.0.0.1:8100"));
        assert!(answers_to("localhost"));
        assert!(answers_to("LOCALHOST:8100"));
        assert!(!answers_to("example.org"));
        assert!(!answers_to("127.0.0.1.example.org:8100"));
        assert!(!answers_to("localhost.example.org"));
        assert!(!is_this_machine(&HeaderMap::new()));
    }
}
