#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""How fast the program is, as a Markdown table with machine and commit: whole processes (median of some runs),
beside peer.py on the same site in the same run (python3-numpy), and the benchmarks of `speed`.

    tests/benchmarks/speed.py [BUILD-FOLDER [RUNS]]       BUILD-FOLDER: build/release
"""
import json
import os
import platform
import re
import statistics
import subprocess
import sys
import tempfile
import time

HERE = os.path.dirname(os.path.abspath(__file__))
ROOT = os.path.dirname(os.path.dirname(HERE))


def output(*command):
    return subprocess.run(command, check=True, capture_output=True, text=True).stdout


def seconds(runs, *command):
    """Median wall time and the largest memory, in MB."""
    times, most = [], 0
    for _ in range(runs):
        start = time.perf_counter()
        process = subprocess.Popen(command, stdout=subprocess.DEVNULL)
        _, status, usage = os.wait4(process.pid, 0)
        times.append(time.perf_counter() - start)
        if status != 0:
            sys.exit(f"{' '.join(command)} failed")
        most = max(most, usage.ru_maxrss / 1024)
    return statistics.median(times), most


def machine():
    with open("/proc/cpuinfo", encoding="utf-8") as file:
        model = re.search(r"model name\s*:\s*(.*)", file.read())
    return f"{model.group(1) if model else platform.machine()}, {os.cpu_count()} cores"


def main():
    build = sys.argv[1] if len(sys.argv) > 1 else os.path.join(ROOT, "build", "release")
    runs = int(sys.argv[2]) if len(sys.argv) > 2 else 5
    program = os.path.join(build, "app", "ullage")
    speed = os.path.join(build, "tests", "benchmarks", "speed")
    commit = output("git", "-C", ROOT, "rev-parse", "--short", "HEAD").strip()
    print(f"{machine()}; commit {commit}; median of {runs} runs\n")
    print("| whole process | seconds | memory, MB | ratio |\n|---|---:|---:|---:|")
    with tempfile.TemporaryDirectory() as folder:
        sites = {}
        for n in (20, 200):
            sites[n] = os.path.join(folder, f"{n}.site.json")
            with open(sites[n], "w", encoding="utf-8") as file:
                file.write(output(speed, "--site", str(n)))
        out = os.path.join(folder, "out.json")

        def forecast(n, paths, threads):
            return seconds(runs, program, "forecast", sites[n], "--paths", str(paths), "--threads", str(threads),
                           "--json", out)

        base, memory = forecast(20, 2000, 2)
        print(f"| forecast, 20 datasets, 2,000 paths | {base:.2f} | {memory:.0f} | 1 |")
        for words, n, paths, threads in (("1 thread", 20, 2000, 1), ("20,000 paths", 20, 20000, 2),
                                         ("200 datasets", 200, 2000, 2)):
            took, memory = forecast(n, paths, threads)
            print(f"| … with {words} | {took:.2f} | {memory:.0f} | {took / base:.1f} |")
        took, memory = seconds(max(1, runs // 2), "/usr/bin/python3", os.path.join(HERE, "peer.py"), sites[20], "2000")
        print(f"| the same paths and times in NumPy, without sends (peer.py) | {took:.2f} | {memory:.0f} | {took / base:.1f} |")
    print("\n| inside | milliseconds |\n|---|---:|")
    report = json.loads(output(speed, "--benchmark_format=json", "--benchmark_min_time=1"))
    for row in report["benchmarks"]:
        print(f"| {row['name'].removesuffix('/real_time')} | {row['real_time']:.1f} |")


main()
