#include <arpa/inet.h>
#include <fcntl.h>
#include <openssl/ec.h>
#include <openssl/err.h>
#include <openssl/pem.h>
#include <openssl/rand.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <system_error>

#include "server/tls/identity.h"
#include "server/tls/openssl_handles.h"

namespace outbye {
namespace {

namespace fs = std::filesystem;

constexpr long day = 24 * 3600;
constexpr long valid_days = 365;
constexpr long renewed_before = 30 * day;

bool is_address(const std::string& name) {
  unsigned char bytes[16];
  return ::inet_pton(AF_INET, name.c_str(), bytes) == 1 || ::inet_pton(AF_INET6, name.c_str(), bytes) == 1;
}

// Nothing that would be read as more than a name in OpenSSL's own notation for extensions.
bool is_host(const std::string& name) {
  return !name.empty() && name.size() <= 253 && std::all_of(name.begin(), name.end(), [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '.' || c == '-';
  });
}

bool add_extension(X509* certificate, int id, const std::string& value) {
  X509V3_CTX context;
  X509V3_set_ctx_nodb(&context);
  X509V3_set_ctx(&context, certificate, certificate, nullptr, nullptr, 0);
  const ExtensionHandle extension(X509V3_EXT_conf_nid(nullptr, &context, id, value.c_str()));
  return extension && X509_add_ext(certificate, extension.get(), -1) == 1;
}

Result<TlsIdentity> not_made() {
  ERR_clear_error();
  return tl::make_unexpected(Problem{Problem::Kind::cancelled, "certificate",
                                     "could not be made by OpenSSL; give one with --certificate and --key"});
}

Problem refused_by_disk(const fs::path& path, int error) {
  return {Problem::Kind::cancelled, path.string(), "cannot be written: " + std::generic_category().message(error)};
}

// For its user alone from its first byte on, and whole or not at all.
Result<void> write_private(const fs::path& path, const std::string& text) {
  std::string name = path.string() + ".XXXXXX";
  const int file = ::mkstemp(name.data());  // 0600
  if (file < 0) return tl::make_unexpected(refused_by_disk(path, errno));
  const bool is_written =
      ::write(file, text.data(), text.size()) == static_cast<ssize_t>(text.size()) && ::fsync(file) == 0;
  int why = errno;
  ::close(file);
  if (is_written && ::rename(name.c_str(), path.c_str()) == 0) return {};
  if (is_written) why = errno;
  ::unlink(name.c_str());
  return tl::make_unexpected(refused_by_disk(path, why));
}

bool has_all(const TlsIdentity& identity, const std::vector<std::string>& names) {
  const auto there = names_in(identity);
  return std::all_of(names.begin(), names.end(), [&](const std::string& name) {
    return std::find(there.begin(), there.end(), name) != there.end();
  });
}

}  // namespace

Result<TlsIdentity> make_own_identity(const std::vector<std::string>& names, Instant now) {
  std::string alternatives;
  for (const auto& name : names) {
    if (!is_address(name) && !is_host(name)) continue;
    alternatives += (alternatives.empty() ? "" : ",") + std::string(is_address(name) ? "IP:" : "DNS:") + name;
  }
  const KeyHandle key(EVP_EC_gen("P-256"));
  const CertificateHandle certificate(X509_new());
  std::uint64_t serial = 0;
  if (!key || !certificate || RAND_bytes(reinterpret_cast<unsigned char*>(&serial), sizeof serial) != 1)
    return not_made();
  std::time_t time = static_cast<std::time_t>(now.time_since_epoch().count());
  X509* made = certificate.get();
  X509_NAME* subject = X509_get_subject_name(made);
  const auto* title = reinterpret_cast<const unsigned char*>("Outbye on this machine");
  const bool is_good = X509_set_version(made, 2) == 1 &&  // which is version 3
                       ASN1_INTEGER_set_uint64(X509_get_serialNumber(made), serial >> 1) == 1 &&
                       // A day early, as the clocks of phones differ.
                       X509_time_adj_ex(X509_getm_notBefore(made), -1, 0, &time) != nullptr &&
                       X509_time_adj_ex(X509_getm_notAfter(made), valid_days, 0, &time) != nullptr &&
                       X509_NAME_add_entry_by_txt(subject, "CN", MBSTRING_UTF8, title, -1, -1, 0) == 1 &&
                       X509_set_issuer_name(made, subject) == 1 && X509_set_pubkey(made, key.get()) == 1 &&
                       add_extension(made, NID_basic_constraints, "critical,CA:FALSE") &&
                       add_extension(made, NID_key_usage, "critical,digitalSignature") &&
                       add_extension(made, NID_ext_key_usage, "serverAuth") &&
                       (alternatives.empty() || add_extension(made, NID_subject_alt_name, alternatives)) &&
                       X509_sign(made, key.get(), EVP_sha256()) > 0;
  if (!is_good) return not_made();
  const BioHandle text(BIO_new(BIO_s_mem())), key_text(BIO_new(BIO_s_mem()));
  if (!text || !key_text || PEM_write_bio_X509(text.get(), made) != 1 ||
      PEM_write_bio_PrivateKey(key_text.get(), key.get(), nullptr, nullptr, 0, nullptr, nullptr) != 1) {
    return not_made();
  }
  return TlsIdentity{text_of(text.get()), text_of(key_text.get()), fingerprint_of(made), end_of(made)};
}

Result<OwnIdentity> own_identity(const fs::path& folder, const std::vector<std::string>& names, Instant now) {
  const fs::path file = folder / "own.pem";
  std::vector<std::string> wanted = names;
  if (const auto kept = read_identity(file.string(), file.string(), now + Seconds{renewed_before})) {
    if (has_all(*kept, names)) return OwnIdentity{*kept, false};
    // Where it was known before it may be known again: at home and at the venue.
    for (const auto& name : names_in(*kept)) {
      if (std::find(wanted.begin(), wanted.end(), name) == wanted.end() && wanted.size() < 64) wanted.push_back(name);
    }
  }
  auto made = make_own_identity(wanted, now);
  if (!made) return tl::make_unexpected(made.error());
  std::error_code error;
  fs::create_directories(folder, error);
  if (error) return tl::make_unexpected(refused_by_disk(folder, error.value()));
  if (auto ok = write_private(file, made->certificates + made->key); !ok) return tl::make_unexpected(ok.error());
  return OwnIdentity{std::move(*made), true};
}

}  // namespace outbye
