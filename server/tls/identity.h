// Certificates and keys, PEM.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/base/units.h"

namespace outbye {

struct TlsIdentity {
  std::string certificates;  // PEM: its own first, then those between it and the root
  std::string key;           // PEM
  std::string fingerprint;   // SHA-256, "3F:02:..."
  Instant until;             // valid so long
};

// Errors: not_found for files, bad_input for what is no PEM, a key that is locked or another's, and a certificate that
// is past its time.
Result<TlsIdentity> read_identity(const std::string& certificate_file, const std::string& key_file, Instant now);

// Signed by itself: nobody vouches for it but who compares its fingerprint. P-256, for a year; `names` are addresses
// and host names. Errors: cancelled when the machine has no randomness to make it of.
Result<TlsIdentity> make_own_identity(const std::vector<std::string>& names, Instant now);

// The machine's own, kept in `folder`/own.pem (readable for its user alone). Made when there is none, when it ends
// within a month, and when it lacks one of the names.
struct OwnIdentity {
  TlsIdentity identity;
  bool is_new{};
};
Result<OwnIdentity> own_identity(const std::filesystem::path& folder, const std::vector<std::string>& names,
                                 Instant now);

// The names in its certificate, addresses as they are written.
std::vector<std::string> names_in(const TlsIdentity& identity);

}  // namespace outbye
