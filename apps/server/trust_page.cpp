#include "trust_page.h"

#include <fmt/format.h>

#include "replies.h"

namespace hw::server {
namespace {

constexpr std::string_view kPage = R"(<!doctype html>
<html lang="en"><head><meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>Huewright: trust this salon's certificate</title></head><body>
<h1>Let this tablet trust the salon's computer</h1>
<p>Once per tablet. Afterwards everything between the two is encrypted. The certificate is good for
names and addresses inside the house only; it cannot vouch for any other site.</p>
<ol>
<li><a href="/huewright-authority.crt">Take the certificate.</a></li>
<li>Compare its SHA-256 fingerprint with the one on the computer's screen, where the device shows it:
<br><code>{fingerprint}</code></li>
<li>Trust it:
<ul>
<li>iPad, iPhone: Settings, General, VPN &amp; Device Management: install the profile. Then Settings,
General, About, Certificate Trust Settings: switch it on.</li>
<li>Android: Settings, Security, More security settings, Install from storage: CA certificate.</li>
<li>Windows: open the file, Install Certificate, Local Machine, Trusted Root Certification
Authorities.</li>
<li>macOS: open the file, then in Keychain Access set it to Always Trust.</li>
</ul></li>
<li>Go on to <a href="{https}/">{https}/</a> and type the code that the computer shows.</li>
</ol>
<p>If a browser warns of the address after this, do not go on: close it and ask whoever looks after the
computer.</p>
</body></html>
)";

}  // namespace

Reply trust_page(const Target& target, const Certificates& certificates, const std::string& https) {
  if (target.path == "/") {
    return {200, "text/html; charset=utf-8",
            fmt::format(kPage, fmt::arg("fingerprint", certificates.fingerprint),
                        fmt::arg("https", https))};
  }
  if (target.path == "/huewright-authority.crt") {
    return {200, "application/x-x509-ca-cert", certificates.authority_der};
  }
  return refusal(404, "only the certificate is here", "address", "start from the first page, /");
}

}  // namespace hw::server
