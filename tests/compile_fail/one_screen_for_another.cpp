// right: Srgb
// wrong: DisplayP3
// says: conversion|could not convert|cannot convert
// The same three numbers are two colours in two spaces.
#include "huewright/colour/rgb.h"

using namespace hw::colour;

EncodedRgb<Srgb> file_of(const LinearRgb<HW_TOKEN>& light) {
  return encode(light);
}
