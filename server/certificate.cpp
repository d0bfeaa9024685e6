#include "server/certificate.h"

#include <arpa/inet.h>
#include <fcntl.h>
#include <fmt/format.h>
#include <ifaddrs.h>
#include <netdb.h>
#include <openssl/bio.h>
#include <openssl/err.h>
#include <openssl/evp.h>
#include <openssl/pem.h>
#include <openssl/rand.h>
#include <openssl/x509v3.h>
#include <sys/socket.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <cstdio>
#include <filesystem>
#include <functional>
#include <memory>
#include <set>
#include <system_error>

#include "desk/errors.h"

namespace heatwork::server {
namespace {

template <class T>
using Owned = std::unique_ptr<T, void (*)(T*)>;
using Key = Owned<EVP_PKEY>;
using Cert = Owned<X509>;

constexpr int lasts_days = 397, anew_before_days = 30;
constexpr long day_s = 24L * 60 * 60;

[[noreturn]] void refuse(const std::string& sentence) {
  ERR_clear_error();
  throw desk::Failure(desk::ErrorWord::bad_file, sentence);
}

[[noreturn]] void cannot_write(const std::string& file) {
  throw desk::Failure(desk::ErrorWord::cannot_write,
                      fmt::format("{} cannot be written: {}.", file, std::generic_category().message(errno)));
}

Owned<std::FILE> opened_file(const std::string& file) {
  return {std::fopen(file.c_str(), "re"), [](std::FILE* open) {
            if (open != nullptr) std::fclose(open);
          }};
}

Cert read_certificate(const std::string& file) {
  const auto open = opened_file(file);
  return {open == nullptr ? nullptr : PEM_read_X509(open.get(), nullptr, nullptr, nullptr), X509_free};
}

Key read_key(const std::string& file) {
  const auto open = opened_file(file);
  // A key under a password would ask for it on the terminal: none is given.
  return {open == nullptr ? nullptr
                          : PEM_read_PrivateKey(
                                open.get(), nullptr, [](char*, int, int, void*) { return 0; }, nullptr),
          EVP_PKEY_free};
}

std::string fingerprint_of(const X509& certificate) {
  std::array<unsigned char, EVP_MAX_MD_SIZE> hash{};
  unsigned size = 0;
  X509_digest(&certificate, EVP_sha256(), hash.data(), &size);
  std::string text;
  for (unsigned i = 0; i < size; ++i) text += fmt::format("{}{:02X}", i == 0 ? "" : ":", hash.at(i));
  return text;
}

std::string day_it_ends(const X509& certificate) {
  tm end{};
  ASN1_TIME_to_tm(X509_get0_notAfter(&certificate), &end);
  return fmt::format("{:04}-{:02}-{:02}", end.tm_year + 1900, end.tm_mon + 1, end.tm_mday);
}

int days_left(const X509& certificate) {
  int days = 0, seconds = 0;
  return ASN1_TIME_diff(&days, &seconds, nullptr, X509_get0_notAfter(&certificate)) == 1 ? days : -1;
}

bool is_address(const std::string& name) {
  std::array<unsigned char, 16> bytes{};
  return ::inet_pton(AF_INET, name.c_str(), bytes.data()) == 1 || ::inet_pton(AF_INET6, name.c_str(), bytes.data()) == 1;
}

bool names_all(X509& certificate, const std::vector<std::string>& names) {
  return std::all_of(names.begin(), names.end(), [&](const std::string& name) {
    return is_address(name) ? X509_check_ip_asc(&certificate, name.c_str(), 0) == 1
                            : X509_check_host(&certificate, name.c_str(), name.size(), 0, nullptr) == 1;
  });
}

void add_extension(X509& certificate, int which, const std::string& text) {
  X509V3_CTX context;
  X509V3_set_ctx_nodb(&context);
  X509V3_set_ctx(&context, &certificate, &certificate, nullptr, nullptr, 0);
  const Owned<X509_EXTENSION> made{X509V3_EXT_conf_nid(nullptr, &context, which, text.c_str()), X509_EXTENSION_free};
  if (made == nullptr || X509_add_ext(&certificate, made.get(), -1) != 1) refuse("The certificate of this machine could not be made.");
}

Cert made_certificate(EVP_PKEY& key, const std::vector<std::string>& names) {
  Cert certificate{X509_new(), X509_free};
  X509_set_version(certificate.get(), X509_VERSION_3);
  std::array<unsigned char, 16> random{};
  RAND_bytes(random.data(), random.size());
  random[0] &= 0x7F;
  const Owned<BIGNUM> number{BN_bin2bn(random.data(), random.size(), nullptr), BN_free};
  BN_to_ASN1_INTEGER(number.get(), X509_get_serialNumber(certificate.get()));
  X509_gmtime_adj(X509_getm_notBefore(certificate.get()), -day_s);  // clocks of tablets may be behind
  X509_gmtime_adj(X509_getm_notAfter(certificate.get()), lasts_days * day_s);
  X509_set_pubkey(certificate.get(), &key);
  X509_NAME* subject = X509_get_subject_name(certificate.get());
  constexpr std::string_view called = "Heatwork at the bench";
  X509_NAME_add_entry_by_txt(subject, "CN", MBSTRING_UTF8, reinterpret_cast<const unsigned char*>(called.data()),
                             static_cast<int>(called.size()), -1, 0);
  X509_set_issuer_name(certificate.get(), subject);
  std::string all;
  for (const std::string& name : names) all += fmt::format("{}{}:{}", all.empty() ? "" : ",", is_address(name) ? "IP" : "DNS", name);
  add_extension(*certificate, NID_subject_alt_name, all);
  add_extension(*certificate, NID_basic_constraints, "critical,CA:FALSE");
  add_extension(*certificate, NID_key_usage, "critical,digitalSignature");
  add_extension(*certificate, NID_ext_key_usage, "serverAuth");
  if (X509_sign(certificate.get(), &key, EVP_sha256()) == 0) refuse("The certificate of this machine could not be made.");
  return certificate;
}

/// Whole or not at all, with these rights from its first byte on.
void write_file(const std::string& file, mode_t rights, const std::function<bool(BIO*)>& put) {
  const std::string unfinished = file + ".new";
  ::unlink(unfinished.c_str());
  const int made = ::open(unfinished.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, rights);
  if (made < 0) cannot_write(unfinished);
  const Owned<BIO> out{BIO_new_fd(made, BIO_NOCLOSE), BIO_free_all};
  const bool good = put(out.get()) && ::fsync(made) == 0;
  ::close(made);
  if (!good || ::rename(unfinished.c_str(), file.c_str()) != 0) cannot_write(file);
}

Certificate told(const std::string& file, const std::string& key_file, const X509& certificate, bool made_now) {
  return {file, key_file, fingerprint_of(certificate), day_it_ends(certificate), made_now};
}

}  // namespace

Certificate given_certificate(const std::string& file, const std::string& key_file) {
  const Cert certificate = read_certificate(file);
  if (certificate == nullptr) refuse(fmt::format("{} is no certificate in PEM that can be read.", file));
  const Key key = read_key(key_file);
  if (key == nullptr) refuse(fmt::format("{} is no key in PEM that can be read; it must stand there without a password.", key_file));
  if (X509_check_private_key(certificate.get(), key.get()) != 1)
    refuse(fmt::format("The key in {} does not belong to the certificate in {}.", key_file, file));
  if (X509_cmp_current_time(X509_get0_notAfter(certificate.get())) < 0)
    refuse(fmt::format("The certificate in {} ran out on {}.", file, day_it_ends(*certificate)));
  return told(file, key_file, *certificate, false);
}

Certificate own_certificate(const std::string& folder, const std::vector<std::string>& names) {
  const std::string file = folder + "/certificate.pem", key_file = folder + "/certificate-key.pem";
  const Cert stands = read_certificate(file);
  const Key its_key = read_key(key_file);
  ERR_clear_error();
  const bool good = stands != nullptr && its_key != nullptr && X509_check_private_key(stands.get(), its_key.get()) == 1 &&
                    days_left(*stands) >= anew_before_days && names_all(*stands, names);
  if (good) return told(file, key_file, *stands, false);
  std::error_code problem;
  std::filesystem::create_directories(folder, problem);
  const Key key{EVP_EC_gen("P-256"), EVP_PKEY_free};
  if (key == nullptr) refuse("The key of this machine could not be made.");
  const Cert certificate = made_certificate(*key, names);
  write_file(key_file, S_IRUSR | S_IWUSR,
             [&](BIO* out) { return PEM_write_bio_PrivateKey(out, key.get(), nullptr, nullptr, 0, nullptr, nullptr) == 1; });
  write_file(file, S_IRUSR | S_IWUSR | S_IRGRP | S_IROTH, [&](BIO* out) { return PEM_write_bio_X509(out, certificate.get()) == 1; });
  return told(file, key_file, *certificate, true);
}

std::vector<std::string> names_of_machine() {
  std::set<std::string> names{"localhost", "127.0.0.1", "::1"};
  std::array<char, 256> host{};
  if (::gethostname(host.data(), host.size() - 1) == 0 && host[0] != '\0') {
    std::string name = host.data();
    std::transform(name.begin(), name.end(), name.begin(), [](unsigned char letter) { return static_cast<char>(std::tolower(letter)); });
    names.insert(name);
    if (name.find('.') == std::string::npos) names.insert(name + ".local");
  }
  ifaddrs* all = nullptr;
  if (::getifaddrs(&all) == 0) {
    for (const ifaddrs* one = all; one != nullptr; one = one->ifa_next) {
      if (one->ifa_addr == nullptr) continue;
      const int family = one->ifa_addr->sa_family;
      if (family != AF_INET && family != AF_INET6) continue;
      std::array<char, NI_MAXHOST> text{};
      const socklen_t size = family == AF_INET ? sizeof(sockaddr_in) : sizeof(sockaddr_in6);
      if (::getnameinfo(one->ifa_addr, size, text.data(), text.size(), nullptr, 0, NI_NUMERICHOST) != 0) continue;
      const std::string address = text.data();
      if (address.find('%') == std::string::npos) names.insert(address);  // of one cable only
    }
    ::freeifaddrs(all);
  }
  return {names.begin(), names.end()};
}

}  // namespace heatwork::server
