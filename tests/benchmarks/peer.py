#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""A many-path fill forecast in NumPy, to compare speeds with: the same paths, steps and boxes as
`ullage forecast` on a site of typed datasets, vectorised over paths and times as one would write it.

    peer.py SITE [PATHS [SEED]]

Prints, for each box, the quantiles of used bytes at the horizon and of the first day at its ceiling, and the
seconds it took. Model, as core/outlook/paths.h: growth by a rate drawn once a path; churn by a level drawn
once, noise of each interval and a wander that returns over 60 days; bytes held by snapshots as the sum over the
ladder's gaps of freed(gap) x the mean churn in the gap. Simpler than the program: three lifetimes through the typed
steps, ladders by age and not by calendar, no events, no sends, no offers, every copy arrives at once, a byte costs
a byte. What is left out would make it slower.
"""
import json
import sys
import time

import numpy as np

DAILY, YEAR, WEEK = 60, 365.25, 7
UNITS = {"B": 1, "kB": 1e3, "MB": 1e6, "GB": 1e9, "TB": 1e12, "KiB": 2**10, "MiB": 2**20, "GiB": 2**30, "TiB": 2**40}
SPANS = {"h": 1 / 24, "d": 1, "w": 7, "mo": 30.4375, "y": YEAR}


def size(text):
    number, unit = text.split()
    return float(number) * UNITS[unit]


def span(text):
    number, unit = text.split()
    return float(number) * SPANS[unit]


def time_grid(horizon):
    return np.unique(np.concatenate([np.arange(0, DAILY), np.arange(DAILY, horizon, WEEK), [horizon]]))


def lifetimes(turnover, growth):
    """Three lifetimes through what a day, a week and a month free."""
    steps = np.array([1.0, 7.0, 30.0])
    freed = np.array([size(turnover[k]) for k in ("per_day", "per_week", "per_month")]) - growth * steps
    tau = np.array([0.5, 7.0, 400.0])
    a = 1 - np.exp(-steps[:, None] / tau)
    return np.clip(np.linalg.solve(a, freed), 0, None), tau


def ladder_ages(ladder):
    """Ages in days of the retained snapshots, newest first."""
    ages = np.concatenate([np.arange(1, r["count"] + 1) * span(r["every"]) for r in ladder])
    return np.unique(np.round(ages, 6))


def held_weights(days, edges, ages, amount, tau, home):
    """held = W @ churn: the bytes that each interval's churn adds at each time."""
    starts, ends = -ages[1:], -ages[:-1]
    if home:
        starts, ends = np.append(starts, -ages[0]), np.append(ends, 0.0)
    gaps = ends - starts
    freed = ((1 - np.exp(-gaps[:, None] / tau)) * amount).sum(axis=1)
    weights = np.zeros((len(days), len(edges) - 1))
    for i, day in enumerate(days):
        low = np.maximum(edges[:-1][None, :], (day + starts)[:, None])
        high = np.minimum(edges[1:][None, :], (day + ends)[:, None])
        weights[i] = (freed[:, None] * np.clip(high - low, 0, None) / gaps[:, None]).sum(axis=0)
    young = (freed / (1 + gaps / 4)).sum() / max(freed.sum(), 1e-9)
    return weights, young


def forecast(site, paths, seed):
    random = np.random.default_rng(seed)
    horizon = span(site.get("horizon", "5 y"))
    days = time_grid(horizon)
    past = np.arange(-53 * WEEK, 0, WEEK)
    edges = np.concatenate([past, days])
    lengths = np.diff(edges)
    ahead = len(past)
    used = {}
    for box in site["boxes"]:
        used[box["name"]] = np.zeros((len(days), paths))
    kept_at = {d["name"]: {d["home"]} for d in site["datasets"]}
    for send in site["sends"]:
        for name in send["datasets"]:
            kept_at[name].add(send["to"])
    for d in site["datasets"]:
        live_now = size(d["live"])
        growth = size(d["growth"]["per_year"]) / YEAR
        amount, tau = lifetimes(d["turnover"], growth)
        ages = ladder_ages(d["ladder"])
        rate = growth * (1 + d["growth"]["spread"] * random.standard_normal(paths))
        steps = rate * np.diff(days)[:, None]
        steps += 0.001 * live_now * np.sqrt(np.diff(days))[:, None] * random.standard_normal(steps.shape)
        live = np.vstack([np.full(paths, live_now), np.maximum(live_now + np.cumsum(steps, axis=0), 0)])
        cv = d["turnover"]["spread"]
        sd = np.sqrt(np.log1p(cv * cv))
        level = np.exp(sd * random.standard_normal(paths) - sd * sd / 2)
        then = np.vstack([np.maximum(live_now + rate * (edges[:ahead, None] + lengths[:ahead, None] / 2), 0.05 * live_now),
                          (live[1:] + live[:-1]) / 2])
        noise_sd = np.sqrt(np.log1p(0.36 / lengths))[:, None]
        noise = np.exp(noise_sd * random.standard_normal((len(lengths), paths)) - noise_sd**2 / 2)
        noise[:ahead] = 1
        churn = level * then / live_now * noise
        wander_sd = np.sqrt(np.log1p(0.25))
        keep = np.exp(-lengths / 60)
        z = random.standard_normal((len(lengths), paths))
        wander = np.zeros((len(lengths), paths))
        now = np.zeros(paths)
        for j in range(len(lengths)):
            now = keep[j] * now + wander_sd * np.sqrt(1 - keep[j] ** 2) * z[j]
            wander[j] = now
        wander = churn * np.expm1(wander - wander_sd**2 / 2)
        for home in (True, False):
            boxes = [b for b in kept_at[d["name"]] if (b == d["home"]) == home]
            if not boxes:
                continue
            weights, young = held_weights(days, edges, ages, amount, tau, home)
            held = weights @ (churn + young * wander)
            for box in boxes:
                used[box] += live + held
    return days, used


def first_days(days, level, ceiling):
    over = level >= ceiling
    first = np.where(over.any(axis=0), over.argmax(axis=0), -1)
    return np.where(first < 0, np.inf, days[np.maximum(first, 0)])


def main():
    start = time.perf_counter()
    with open(sys.argv[1], encoding="utf-8") as file:
        site = json.load(file)
    paths = int(sys.argv[2]) if len(sys.argv) > 2 else 2000
    seed = int(sys.argv[3]) if len(sys.argv) > 3 else 1
    days, used = forecast(site, paths, seed)
    for box in site["boxes"]:
        level = used[box["name"]]
        bands = np.quantile(level, [0.1, 0.25, 0.5, 0.75, 0.9], axis=1)
        usable = size(box["usable"]) if "usable" in box else 0.7 * size(box["pool"]["drive"]) * box["pool"]["width"] * box["pool"]["groups"]
        reached = np.sort(first_days(days, level, 0.8 * usable))
        quantiles = reached[[int(np.ceil(p * paths)) - 1 for p in (0.1, 0.5, 0.9)]]
        print(f"{box['name']}: {bands[0, -1] / 1e12:.1f} {bands[2, -1] / 1e12:.1f} {bands[4, -1] / 1e12:.1f} TB; "
              f"ceiling on day {quantiles}")
    print(f"{time.perf_counter() - start:.2f} s, {paths} paths, {len(days)} times")


main()
