namespace Athwart.Bench;

/// <summary>What a figure is worth nothing without.</summary>
internal static class Machine
{
    public static string Processor() =>
        File.ReadLines("/proc/cpuinfo").FirstOrDefault(line => line.StartsWith("model name", StringComparison.Ordinal))?.Split(':', 2)[1].Trim() is { Length: > 0 } name
            ? $"{name} ({Extensions()})"
            : "unknown";

    public static string Programs() => string.Join("; ",
        Shell.Read("ffmpeg -version | head -n 1 | cut -d' ' -f1-3"),
        Shell.Read("sox --version | sed 's/.*: *//'"),
        "libebur128 " + Shell.Read("dpkg-query -W -f '${Version}' libebur128-dev"),
        Shell.Read("gcc --version | head -n 1"));

    public static string Load() => File.ReadAllText("/proc/loadavg").Split(' ')[0];

    private static string Extensions()
    {
        var flags = File.ReadLines("/proc/cpuinfo").First(line => line.StartsWith("flags", StringComparison.Ordinal)).Split(' ');
        return string.Join(", ", flags.Where(flag => flag is "avx2" or "fma" or "avx512f" or "sha_ni"));
    }
}
