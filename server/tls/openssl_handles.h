// OpenSSL's objects with their ends. Internal to server/tls.
#pragma once

#include <openssl/bio.h>
#include <openssl/evp.h>
#include <openssl/x509.h>
#include <openssl/x509v3.h>

#include <memory>
#include <string>
#include <string_view>

#include "core/base/units.h"

namespace outbye {

template <auto free>
struct FreedBy {
  template <class T>
  void operator()(T* object) const {
    free(object);
  }
};
using BioHandle = std::unique_ptr<BIO, FreedBy<BIO_free_all>>;
using KeyHandle = std::unique_ptr<EVP_PKEY, FreedBy<EVP_PKEY_free>>;
using CertificateHandle = std::unique_ptr<X509, FreedBy<X509_free>>;
using ExtensionHandle = std::unique_ptr<X509_EXTENSION, FreedBy<X509_EXTENSION_free>>;
using NamesHandle = std::unique_ptr<GENERAL_NAMES, FreedBy<GENERAL_NAMES_free>>;

inline BioHandle bio_of(std::string_view text) {
  return BioHandle(BIO_new_mem_buf(text.data(), static_cast<int>(text.size())));
}
inline std::string text_of(BIO* bio) {
  char* data = nullptr;
  const long size = BIO_get_mem_data(bio, &data);
  return size > 0 ? std::string(data, static_cast<std::size_t>(size)) : std::string();
}

// "3F:02:..."
std::string fingerprint_of(const X509* certificate);
Instant end_of(const X509* certificate);

}  // namespace outbye
