// outbye serve: the planning page, on this machine.
#include <fcntl.h>
#include <spawn.h>
#include <unistd.h>

#include <csignal>
#include <cstdlib>
#include <filesystem>
#include <memory>

#include "cli/command_line.h"
#include "cli/demo_ride.h"
#include "cli/load_ride.h"
#include "server/engine_calls/engine_calls.h"
#include "server/http/http_server.h"
#include "server/routes/packed_site.h"
#include "server/routes/site.h"
#include "server/routes/task_works.h"
#include "server/storage/sqlite_store.h"
#include "server/tls/identity.h"
#include "server/tls/machine.h"

namespace outbye {
namespace {

namespace fs = std::filesystem;

struct ServeOptions {
  std::string port;
  std::string address;
  std::string store;
  std::string web;
  std::string demo;
  std::string pack;
  std::string certificate;
  std::string key;
  bool tls{};
  bool open{};
};

Instant time_now() { return Instant{std::chrono::system_clock::now().time_since_epoch()}; }

std::string environment(const char* name) {
  const char* value = std::getenv(name);
  return value == nullptr ? "" : value;
}

Result<fs::path> store_folder(const ServeOptions& options) {
  if (!options.store.empty()) return fs::path(options.store);
  if (const auto data = environment("XDG_DATA_HOME"); !data.empty()) return fs::path(data) / "outbye";
  if (const auto home = environment("HOME"); !home.empty()) return fs::path(home) / ".local/share/outbye";
  return bad_input("--store", "is needed: neither XDG_DATA_HOME nor HOME says where your data is kept");
}

// Beside the program where it is installed, or as the sources have it.
fs::path web_folder(const ServeOptions& options) {
  if (!options.web.empty()) return options.web;
  std::error_code error;
  const fs::path folder = fs::read_symlink("/proc/self/exe", error).parent_path();
  const fs::path beside = folder / "web";
  return fs::exists(beside / "index.html", error) ? beside : folder / "../web/dist";
}

bool is_any(const std::string& address) { return address == "0.0.0.0" || address == "::"; }

std::string url_of(const ServeOptions& options, const std::string& host, std::uint16_t port) {
  const std::string shown = host.find(':') == std::string::npos ? host : "[" + host + "]";
  return (options.tls ? "https://" : "http://") + shown + ":" + std::to_string(port) + "/";
}

// By the desktop's own way to open an address; nothing of it is waited for.
bool open_in_browser(const std::string& address) {
  char program[] = "xdg-open";
  std::string argument = address;
  char* arguments[] = {program, argument.data(), nullptr};
  posix_spawn_file_actions_t actions;
  posix_spawn_file_actions_init(&actions);
  posix_spawn_file_actions_addopen(&actions, 1, "/dev/null", O_WRONLY, 0);
  posix_spawn_file_actions_addopen(&actions, 2, "/dev/null", O_WRONLY, 0);
  pid_t child = 0;
  const bool is_started = posix_spawnp(&child, program, &actions, nullptr, arguments, environ) == 0;
  posix_spawn_file_actions_destroy(&actions);
  return is_started;
}

Problem problem_of(const std::vector<Trouble>& troubles) {
  const Trouble& first = troubles.front();
  return {first.kind == Trouble::Kind::conflict ? Problem::Kind::bad_input : Problem::Kind::cancelled, first.where,
          first.what};
}

// What does not go together, said before anything is opened.
Result<void> check_options(const ServeOptions& options) {
  if (options.certificate.empty() != options.key.empty()) {
    return bad_input(options.key.empty() ? "--key" : "--certificate", "is needed as well: the two go together");
  }
  if (!options.certificate.empty() && !options.tls) return bad_input("--certificate", "says something with --tls only");
  if (options.pack.empty()) return {};
  if (!options.demo.empty()) return bad_input("--demo", "has no place beside --pack, which serves no store");
  if (!options.web.empty()) return bad_input("--web", "has no place beside --pack, whose folder has its own page");
  for (const char* file : {"index.html", "files.json"}) {
    std::error_code error;
    if (!fs::is_regular_file(fs::path(options.pack) / file, error)) {
      return bad_input(options.pack, std::string("is no packed ride (it has no ") + file +
                                         "); `outbye pack RIDE --out DIR` makes one");
    }
  }
  return {};
}

// By which others of the network reach this machine, when it listens to them.
std::vector<std::string> names_of_network(const ServeOptions& options) {
  if (!is_any(options.address)) return {};
  std::vector<std::string> names = machine_addresses();
  if (options.address == "0.0.0.0") std::erase_if(names, [](const auto& name) { return name.find(':') != name.npos; });
  for (auto& name : machine_names()) names.push_back(std::move(name));
  return names;
}

// From the files given, else the machine's own, kept beside the rides.
Result<OwnIdentity> identity_of(const ServeOptions& options) {
  if (!options.certificate.empty()) {
    auto given = read_identity(options.certificate, options.key, time_now());
    if (!given) return tl::make_unexpected(given.error());
    return OwnIdentity{std::move(*given), false};
  }
  const auto folder = store_folder(options);
  if (!folder) return tl::make_unexpected(folder.error());
  std::vector<std::string> names = names_of_network(options);
  names.insert(names.begin(), {"localhost", "127.0.0.1", "::1"});
  if (!is_any(options.address) && options.address != "127.0.0.1" && options.address != "::1" &&
      options.address != "localhost") {
    names.push_back(options.address);
  }
  return own_identity(*folder / "tls", names, time_now());
}

Result<HttpServer> listen(const ServeOptions& options, const Limits& limits, Console& console) {
  const auto port = number_from(options.port, "--port", -1, 65535);
  if (!port) return tl::make_unexpected(port.error());
  if (*port != static_cast<double>(static_cast<int>(*port))) return bad_input("--port", "must be a whole number");
  std::optional<OwnIdentity> identity;
  if (options.tls) {
    auto found = identity_of(options);
    if (!found) return tl::make_unexpected(found.error());
    identity = std::move(*found);
  }
  auto server = HttpServer::listen(options.address, static_cast<std::uint16_t>(*port), limits);
  if (!server || !identity) return server;
  if (auto ok = server->use_tls(identity->identity.certificates, identity->identity.key); !ok) {
    return tl::make_unexpected(ok.error());
  }
  if (!options.certificate.empty()) return server;
  console.note("the certificate is this machine's own" + std::string(identity->is_new ? ", made just now" : "") +
               ": each browser warns once; go on only if the SHA-256 fingerprint it shows is " +
               identity->identity.fingerprint);
  return server;
}

// The addresses at which it listens, one a line; the first is the one to open here.
std::string say_addresses(const ServeOptions& options, std::uint16_t port, Console& console) {
  const std::string first = url_of(options, is_any(options.address) ? "localhost" : options.address, port);
  std::string all = first + "\n";
  for (const auto& name : names_of_network(options)) all += url_of(options, name, port) + "\n";
  console.say_now(all);
  return first;
}

OwnNames own_names(const ServeOptions& options, std::uint16_t port) {
  const auto scheme = options.tls ? OwnNames::Scheme::https : OwnNames::Scheme::http;
  // The store is for this machine alone unless it was asked to speak TLS.
  const bool is_for_others = options.tls || !options.pack.empty();
  return OwnNames(options.address, port, scheme,
                  is_for_others ? names_of_network(options) : std::vector<std::string>{});
}

ExitCode serve_packed(const ServeOptions& options, Console& console) {
  auto server = listen(options, {}, console);
  if (!server) return console.report(server.error());
  StaticFiles files(options.pack);
  if (!options.tls) {
    console.note(
        "without --tls a phone shows the page but keeps nothing of it for when this machine is out of reach; "
        "`outbye pack --single-file` makes a page that needs none");
  } else if (options.certificate.empty()) {
    console.note(
        "to keep the page for later (a service worker) a phone asks for a certificate that it trusts: give one "
        "with --certificate and --key, or pack with --single-file, which needs neither");
  }
  const std::string address = say_addresses(options, server->port(), console);
  if (options.open && !open_in_browser(address)) console.note("no browser could be started; open " + address);
  server->run(make_packed_site(files, own_names(options, server->port())));
  return ExitCode::good;
}

ExitCode serve_store(const ServeOptions& options, Console& console) {
  const auto folder = store_folder(options);
  if (!folder) return console.report(folder.error());
  // A file that may not grow is an answer of the disk like any other.
  std::signal(SIGXFSZ, SIG_IGN);
  auto open = open_store(*folder, time_now);
  if (!open) return console.report(problem_of(open.error()));
  if (!options.demo.empty()) {
    if (auto ok = put_demo_ride(*open, options.demo); !ok) return console.report(problem_of(ok.error()));
  }
  auto maps = RideMaps::open(*folder / "maps");
  if (!maps) return console.report(problem_of(maps.error()));
  EngineCalls engine(cache_folder());
  TaskRunner tasks(*open->store, task_works(*open->store, open->blobs, engine, **maps));
  Backstage backstage{*open->store, open->blobs, engine, **maps, tasks};
  auto server = listen(options, backstage.limits, console);
  if (!server) return console.report(server.error());
  StaticFiles page(web_folder(options));
  std::string address = url_of(options, is_any(options.address) ? "localhost" : options.address, server->port());
  if (options.tls) {
    address = say_addresses(options, server->port(), console);
  } else {
    console.say_now(address + "\n");
  }
  if (options.open && !open_in_browser(address)) console.note("no browser could be started; open " + address);
  server->run(make_site(backstage, page, own_names(options, server->port())));
  return ExitCode::good;
}

// Phones keep what belongs to a page by its address, port included: a packed ride has the same one each time.
ExitCode serve(ServeOptions options, Console& console) {
  if (auto ok = check_options(options); !ok) return console.report(ok.error());
  const bool is_packed = !options.pack.empty();
  if (options.port.empty()) options.port = !is_packed ? "0" : options.tls ? "8443" : "8080";
  if (options.address.empty()) options.address = is_packed ? "0.0.0.0" : "127.0.0.1";
  return is_packed ? serve_packed(options, console) : serve_store(options, console);
}

}  // namespace

Command add_serve(CLI::App& all) {
  auto options = std::make_shared<ServeOptions>();
  CLI::App* app = all.add_subcommand("serve",
                                     "The planning page in a browser, served by this machine for itself. Rides are "
                                     "kept in a store of their own; every "
                                     "state that was saved can be had back. Ends with Ctrl-C.");
  app->add_option("--port", options->port,
                  "Port to listen at; 0 is any free one [0; with --pack 8080, or 8443 with --tls]")
      ->type_name("NUMBER");
  app->add_option("--address", options->address,
                  "Address to listen at [127.0.0.1, this machine alone; with --pack 0.0.0.0, the network]")
      ->type_name("IP");
  app->add_option("--store", options->store, "Where rides are kept [~/.local/share/outbye]")->type_name("DIR");
  app->add_option("--web", options->web, "The built page [beside the program]")->type_name("DIR");
  app->add_option("--demo", options->demo, "Put this ride with its files into the store if it is not there")
      ->type_name("RIDE");
  app->add_option("--pack", options->pack, "Hand out this packed ride to phones instead, read-only")->type_name("DIR");
  app->add_flag("--tls", options->tls, "Speak HTTPS, with a certificate of this machine's own unless one is given");
  app->add_option("--certificate", options->certificate, "The certificate for --tls, PEM")->type_name("FILE");
  app->add_option("--key", options->key, "Its private key, PEM")->type_name("FILE");
  app->add_flag("--open", options->open, "Open the page in the browser");
  app->footer(
      "Example: outbye serve --port 8080\n"
      "         outbye serve --pack day --tls");
  return {app, [options](Console& console) { return serve(*options, console); }};
}

}  // namespace outbye
