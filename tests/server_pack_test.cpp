// A packed ride handed out to phones by the built program.
#include <fcntl.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <poll.h>
#include <sys/wait.h>

#include <csignal>
#include <fstream>

#include "server/tls/machine.h"
#include "tests/run_outbye.h"
#include "tests/support/http_client.h"
#include "tests/support/https_client.h"

namespace outbye {
namespace {

using test::http_request;
using test::HttpConnection;
using test::HttpsClient;
using ::testing::HasSubstr;
using ::testing::StartsWith;

// The built program serving with these words, until the end of the test.
class Serving {
 public:
  Serving(const FreshFolder& folder, std::vector<std::string> words) {
    words.insert(words.begin(),
                 {std::string(OUTBYE_BUILD) + "/outbye", "serve", "--port", "0", "--store", folder / "store"});
    int out[2] = {-1, -1}, err[2] = {-1, -1};
    if (::pipe(out) != 0 || ::pipe(err) != 0) std::abort();
    child_ = ::fork();
    if (child_ == 0) {
      ::dup2(out[1], 1);
      ::dup2(err[1], 2);
      std::vector<char*> argv;
      for (const auto& word : words) argv.push_back(const_cast<char*>(word.c_str()));
      argv.push_back(nullptr);
      ::execv(argv[0], argv.data());
      ::_exit(127);
    }
    ::close(out[1]);
    ::close(err[1]);
    said_ = read_until(out[0], '\n');
    noted_ = read_until(err[0], '\0');  // what there is
    ::close(out[0]);
    ::close(err[0]);
    const auto colon = said_.find(':', said_.find("//"));
    if (colon == std::string::npos) {
      ADD_FAILURE() << "it does not serve: " << noted_;
      return;
    }
    port_ = static_cast<std::uint16_t>(std::stoi(said_.substr(colon + 1)));
  }
  Serving(const Serving&) = delete;
  Serving& operator=(const Serving&) = delete;
  ~Serving() {
    ::kill(child_, SIGKILL);
    ::waitpid(child_, nullptr, 0);
  }
  std::uint16_t port() const { return port_; }
  const std::string& said() const { return said_; }
  const std::string& noted() const { return noted_; }

 private:
  static std::string read_until(int fd, char end) {
    std::string text;
    pollfd wait{fd, POLLIN, 0};
    char block[4096];
    while (text.find(end) == std::string::npos && ::poll(&wait, 1, end == '\n' ? 20'000 : 300) == 1) {
      const ssize_t n = ::read(fd, block, sizeof block);
      if (n <= 0) break;
      text.append(block, static_cast<std::size_t>(n));
    }
    return text;
  }
  pid_t child_{-1};
  std::uint16_t port_{};
  std::string said_;
  std::string noted_;
};

class ServedPack : public testing::Test {
 protected:
  ServedPack() {
    std::filesystem::create_directories(folder / "day");
    std::ofstream(folder / "day/index.html") << "<!doctype html><title>Day</title>";
    std::ofstream(folder / "day/files.json") << "{}";
    std::ofstream(folder / "day/outbye_day.wasm") << "engine";
  }
  FreshFolder folder;
  std::string day = folder / "day";
};

TEST_F(ServedPack, IsReadOverHttpsByWhoTrustsTheMachinesOwnCertificate) {
  const Serving serving(folder, {"--pack", day, "--tls", "--address", "127.0.0.1"});
  EXPECT_THAT(serving.said(), StartsWith("https://127.0.0.1:"));
  const std::string own = text_of(folder / "store/tls/own.pem");
  HttpsClient client(serving.port(), own, "127.0.0.1");
  ASSERT_TRUE(client.is_open()) << client.why();
  ASSERT_TRUE(client.send(http_request("GET", "/", serving.port(), "", "", "Connection: close\r\n")));
  const std::string answer = client.receive();
  EXPECT_THAT(answer, HasSubstr("<title>Day</title>"));
  EXPECT_THAT(answer, HasSubstr("'wasm-unsafe-eval'"));
}

TEST_F(ServedPack, IsReadByOpensslsOwnClient) {
  if (!has_program("openssl")) GTEST_SKIP() << "openssl is not there";
  const Serving serving(folder, {"--pack", day, "--tls", "--address", "127.0.0.1"});
  const auto run =
      run_program(folder,
                  {"openssl", "s_client", "-quiet", "-verify_return_error", "-verify_ip", "127.0.0.1", "-CAfile",
                   folder / "store/tls/own.pem", "-connect", "127.0.0.1:" + std::to_string(serving.port())},
                  http_request("GET", "/files.json", serving.port(), "", "", "Connection: close\r\n"));
  EXPECT_THAT(run.out, StartsWith("HTTP/1.1 200")) << run.err;
}

TEST_F(ServedPack, HasAFingerprintToCompareAndSaysWhatAPhoneAsksFor) {
  const Serving serving(folder, {"--pack", day, "--tls", "--address", "127.0.0.1"});
  EXPECT_THAT(serving.noted(), HasSubstr("SHA-256 fingerprint"));
  EXPECT_THAT(serving.noted(), HasSubstr("service worker"));
}

TEST_F(ServedPack, KeepsItsCertificateFromOneTimeToTheNext) {
  const auto serve = [&] { const Serving serving(folder, {"--pack", day, "--tls", "--address", "127.0.0.1"}); };
  serve();
  const std::string first = text_of(folder / "store/tls/own.pem");
  serve();
  EXPECT_EQ(text_of(folder / "store/tls/own.pem"), first);
  EXPECT_FALSE(first.empty());
}

TEST_F(ServedPack, IsReadInPlainHttpWithoutTlsAndSaysWhatIsLost) {
  const Serving serving(folder, {"--pack", day, "--address", "127.0.0.1"});
  HttpConnection plain(serving.port());
  ASSERT_TRUE(plain.send(http_request("GET", "/outbye_day.wasm", serving.port())));
  const auto answer = plain.receive();
  EXPECT_EQ(answer.status, 200);
  EXPECT_EQ(answer.body, "engine");
  EXPECT_EQ(answer.headers.at("content-type"), "application/wasm");
  EXPECT_THAT(serving.noted(), HasSubstr("without --tls"));
}

TEST_F(ServedPack, TakesNothing) {
  const Serving serving(folder, {"--pack", day, "--address", "127.0.0.1"});
  for (const char* method : {"PUT", "POST", "DELETE"}) {
    HttpConnection connection(serving.port());
    ASSERT_TRUE(connection.send(http_request(method, "/files.json", serving.port())));
    EXPECT_EQ(connection.receive().status, 405) << method;
  }
  HttpConnection connection(serving.port());
  ASSERT_TRUE(connection.send(http_request("PUT", "/files.json", serving.port(), "{\"evil\": 1}")));
  EXPECT_EQ(connection.receive().status, 413);
  EXPECT_EQ(text_of(folder / "day/files.json"), "{}");
}

TEST_F(ServedPack, HasNoStoreBesideIt) {
  const Serving serving(folder, {"--pack", day, "--address", "127.0.0.1"});
  HttpConnection connection(serving.port());
  ASSERT_TRUE(connection.send(http_request("GET", "/api/v1/rides.json", serving.port())));
  EXPECT_EQ(connection.receive().status, 404);
  EXPECT_FALSE(std::filesystem::exists(folder / "store"));
}

TEST_F(ServedPack, LeadsOutOfItsFolderByNoPathAndNoLink) {
  std::ofstream(folder / "secret.txt") << "secret";
  std::filesystem::create_symlink(folder / "secret.txt", folder / "day/link.txt");
  const Serving serving(folder, {"--pack", day, "--address", "127.0.0.1"});
  for (const char* target : {"/../secret.txt", "/%2e%2e/secret.txt", "/..%2fsecret.txt", "/link.txt"}) {
    HttpConnection connection(serving.port());
    ASSERT_TRUE(connection.send(http_request("GET", target, serving.port())));
    const auto answer = connection.receive();
    EXPECT_GE(answer.status, 400) << target;
    EXPECT_EQ(answer.body.find("secret\n"), std::string::npos);
    EXPECT_NE(answer.body, "secret");
  }
}

TEST_F(ServedPack, AnswersAtEachAddressItNamesAndToNoOtherName) {
  const Serving serving(folder, {"--pack", day});
  const auto status = [&](const std::string& host) {
    HttpConnection connection(serving.port());
    connection.send("GET / HTTP/1.1\r\nHost: " + host + "\r\n\r\n");
    return connection.receive().status;
  };
  EXPECT_EQ(status("localhost:" + std::to_string(serving.port())), 200);
  for (const auto& name : machine_addresses()) {
    if (name.find(':') != std::string::npos) continue;
    EXPECT_THAT(serving.said(), HasSubstr("http://" + name + ":"));
    EXPECT_EQ(status(name + ":" + std::to_string(serving.port())), 200);
  }
  EXPECT_EQ(status("evil.example:" + std::to_string(serving.port())), 421);
}

TEST_F(ServedPack, IsThePlanningPageUnderTlsWithoutPack) {
  std::filesystem::create_directories(folder / "web");
  std::ofstream(folder / "web/index.html") << "<title>Plan</title>";
  const Serving serving(folder, {"--tls", "--web", folder / "web"});
  HttpsClient client(serving.port(), text_of(folder / "store/tls/own.pem"), "localhost");
  ASSERT_TRUE(client.is_open()) << client.why();
  ASSERT_TRUE(client.send(http_request("GET", "/api/v1/rides", serving.port(), "", "", "Connection: close\r\n")));
  EXPECT_THAT(client.receive(), StartsWith("HTTP/1.1 200"));
}

struct Refused {
  std::vector<std::string> words;
  const char* says;
};

TEST_F(ServedPack, RefusesWhatDoesNotGoTogether) {
  std::filesystem::create_directories(folder / "other");
  std::ofstream(folder / "no.pem") << "no certificate";
  const std::vector<Refused> all = {
      {{"--pack", folder / "other"}, "is no packed ride"},
      {{"--pack", folder / "nowhere"}, "is no packed ride"},
      {{"--pack", day, "--demo", "ride.json"}, "--demo: has no place beside --pack"},
      {{"--tls", "--certificate", folder / "no.pem"}, "--key: is needed as well"},
      {{"--certificate", folder / "no.pem", "--key", folder / "no.pem"}, "with --tls only"},
      {{"--tls", "--certificate", folder / "no.pem", "--key", folder / "no.pem"}, "holds no certificate"},
      {{"--tls", "--certificate", folder / "gone.pem", "--key", folder / "no.pem"}, "no such file"},
      {{"--pack", day, "--address", "here"}, "is no address"},
  };
  for (const Refused& one : all) {
    std::vector<std::string> words{"serve", "--store", folder / "store"};
    words.insert(words.end(), one.words.begin(), one.words.end());
    const auto run = run_outbye(folder, words);
    EXPECT_EQ(run.code, 2) << run.out << run.err;
    EXPECT_THAT(run.err, HasSubstr(one.says));
    EXPECT_EQ(run.out, "");
  }
}

}  // namespace
}  // namespace outbye
