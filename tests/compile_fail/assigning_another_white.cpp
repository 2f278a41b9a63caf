// right: D50
// wrong: D65
// says: conversion|could not convert|cannot convert|no match
// Tristimulus values do not change their white by assignment; adapt() does it.
#include "huewright/colour/adaptation.h"

using namespace hw::colour;

Xyz<D50, Deg2> hold(const Xyz<HW_TOKEN, Deg2>& given) {
  Xyz<D50, Deg2> kept = given;
  return kept;
}
