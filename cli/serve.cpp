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
#include "server/routes/site.h"
#include "server/routes/task_works.h"
#include "server/storage/sqlite_store.h"

namespace outbye {
namespace {

namespace fs = std::filesystem;

struct ServeOptions {
  std::string port{"0"};
  std::string address{"127.0.0.1"};
  std::string store;
  std::string web;
  std::string demo;
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

std::string address_of(const ServeOptions& options, std::uint16_t port) {
  const bool is_v6 = options.address.find(':') != std::string::npos;
  const bool is_any = options.address == "0.0.0.0" || options.address == "::";
  const std::string host = is_any ? "localhost" : is_v6 ? "[" + options.address + "]" : options.address;
  return "http://" + host + ":" + std::to_string(port) + "/";
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

ExitCode serve(const ServeOptions& options, Console& console) {
  const auto port = number_from(options.port, "--port", -1, 65535);
  if (!port) return console.report(port.error());
  if (*port != static_cast<double>(static_cast<int>(*port))) {
    return console.report(Problem{Problem::Kind::bad_input, "--port", "must be a whole number"});
  }
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
  auto server = HttpServer::listen(options.address, static_cast<std::uint16_t>(*port), backstage.limits);
  if (!server) return console.report(server.error());
  StaticFiles page(web_folder(options));
  const std::string address = address_of(options, server->port());
  console.say_now(address + "\n");
  if (options.open && !open_in_browser(address)) console.note("no browser could be started; open " + address);
  server->run(make_site(backstage, page, OwnNames(options.address, server->port())));
  return ExitCode::good;
}

}  // namespace

Command add_serve(CLI::App& all) {
  auto options = std::make_shared<ServeOptions>();
  CLI::App* app = all.add_subcommand("serve",
                                     "The planning page in a browser, served by this machine for itself. Rides are "
                                     "kept in a store of their own; every "
                                     "state that was saved can be had back. Ends with Ctrl-C.");
  app->add_option("--port", options->port, "Port to listen at; 0 is any free one [0]")->type_name("NUMBER");
  app->add_option("--address", options->address, "Address to listen at [127.0.0.1, this machine alone]")
      ->type_name("IP");
  app->add_option("--store", options->store, "Where rides are kept [~/.local/share/outbye]")->type_name("DIR");
  app->add_option("--web", options->web, "The built page [beside the program]")->type_name("DIR");
  app->add_option("--demo", options->demo, "Put this ride with its files into the store if it is not there")
      ->type_name("RIDE");
  app->add_flag("--open", options->open, "Open the page in the browser");
  app->footer("Example: outbye serve --port 8080");
  return {app, [options](Console& console) { return serve(*options, console); }};
}

}  // namespace outbye
