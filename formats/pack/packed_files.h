// The files of a packed ride that are made of others: the list that the service worker keeps, the manifest, the icons.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/base/result.h"
#include "engine/ride.h"

namespace outbye {

struct PackedFile {
  std::string name;  // "photos/1-ford.jpg": relative, of folders parted by '/'
  std::string bytes;
};

// 64 hexadecimal digits.
std::string sha256(std::string_view bytes);

// files.json: each file with its size and SHA-256, by name, and a mark that differs when any of them does.
std::string files_json(const std::vector<PackedFile>& files);

// manifest.webmanifest (W3C Web Application Manifest); names the icons below.
std::string manifest_json(const Ride& ride);

// PNG, drawn: icons/icon-192.png, icon-512.png, maskable-512.png (all of it within the middle 80 %) and touch-180.png
// (no rounded corners, as the phone cuts its own). Errors: cancelled when there is no memory for it.
Result<std::vector<PackedFile>> icon_files();

// "crew point: Mill Ford.JPG", 3 -> "3-mill-ford.jpg": a name that every file system and web server takes.
std::string plain_file_name(std::string_view name, std::size_t number);

// RFC 4648, with padding.
std::string base64(std::string_view bytes);
std::string data_address(std::string_view type, std::string_view bytes);

// By the end of the name, as web servers send it: "image/jpeg".
std::string type_by_name(std::string_view name);

}  // namespace outbye
