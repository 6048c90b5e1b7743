using System.Diagnostics;
using System.Globalization;

namespace Athwart.Bench;

/// <summary>What one run took.</summary>
/// <param name="Seconds">Wall time.</param>
/// <param name="ProcessorSeconds">User and system time of the program and what it started.</param>
/// <param name="MebibytesResident">The largest resident set.</param>
/// <param name="ExitCode">What it ended with.</param>
/// <param name="Error">What it wrote to the error stream.</param>
internal sealed record RunCost(double Seconds, double ProcessorSeconds, double MebibytesResident, int ExitCode, string Error);

/// <summary>Runs command lines through /bin/sh, so that both sides of a contest carry the same start-up.</summary>
internal static class Shell
{
    /// <summary>Wall and processor time of a command line from start to end, output thrown away.</summary>
    public static RunCost Time(string commandLine) => Measure($"-f '%U %S' -o '{{0}}' /bin/sh -c '{commandLine.Replace("'", "'\\''", StringComparison.Ordinal)}'");

    /// <summary>The largest resident set of the one program a command line runs.</summary>
    public static RunCost Memory(string commandLine) => Measure($"-f %M -o '{{0}}' {commandLine}");

    // The kernel's own account, by GNU time, which writes to a file that {0} names.
    private static RunCost Measure(string commandLine)
    {
        var note = Path.GetTempFileName();
        try
        {
            var clock = Stopwatch.StartNew();
            var (exitCode, error) = Run("/usr/bin/time " + commandLine.Replace("{0}", note, StringComparison.Ordinal));
            var seconds = clock.Elapsed.TotalSeconds;
            double[] figures = [.. File.ReadAllLines(note)[^1].Split(' ').Select(word => double.Parse(word, CultureInfo.InvariantCulture))];
            return new(seconds, figures.Sum(), figures[0] / 1024, exitCode, error);
        }
        finally
        {
            File.Delete(note);
        }
    }

    public static void Must(string commandLine)
    {
        var (exitCode, error) = Run(commandLine);
        if (exitCode != 0)
            throw new InvalidOperationException($"exit {exitCode} from: {commandLine}\n{error}");
    }

    /// <summary>What a command line prints.</summary>
    public static string Read(string commandLine)
    {
        using var process = Start(commandLine);
        var output = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        return output.Trim();
    }

    private static (int ExitCode, string Error) Run(string commandLine)
    {
        using var process = Start($"exec >/dev/null; {commandLine}");
        var error = process.StandardError.ReadToEnd();
        process.WaitForExit();
        return (process.ExitCode, error);
    }

    private static Process Start(string commandLine) =>
        Process.Start(new ProcessStartInfo("/bin/sh", ["-c", commandLine]) { RedirectStandardOutput = true, RedirectStandardError = true, UseShellExecute = false })
        ?? throw new InvalidOperationException("/bin/sh did not start");
}
