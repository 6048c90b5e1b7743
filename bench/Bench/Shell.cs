using System.Diagnostics;
using System.Globalization;

namespace Athwart.Bench;

/// <summary>What one run took.</summary>
internal sealed record RunCost(double Seconds, double MebibytesResident, int ExitCode, string Error);

/// <summary>Runs command lines through /bin/sh, so that both sides of a contest carry the same start-up.</summary>
internal static class Shell
{
    /// <summary>Wall time of a command line from start to end, output thrown away.</summary>
    public static RunCost Time(string commandLine)
    {
        var clock = Stopwatch.StartNew();
        var (exitCode, error) = Run(commandLine);
        return new(clock.Elapsed.TotalSeconds, 0, exitCode, error);
    }

    /// <summary>The largest resident set of the one program a command line runs, from the kernel's own account (GNU time).</summary>
    public static RunCost Memory(string commandLine)
    {
        var note = Path.GetTempFileName();
        try
        {
            var (exitCode, error) = Run($"/usr/bin/time -f %M -o '{note}' {commandLine}");
            var kibibytes = double.Parse(File.ReadAllLines(note)[^1], CultureInfo.InvariantCulture);
            return new(0, kibibytes / 1024, exitCode, error);
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
