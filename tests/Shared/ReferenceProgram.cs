using System.Diagnostics;

namespace Athwart.Tests.Shared;

/// <summary>Programs from outside the project that judge ours. Missing: skipped with a reason, or a failure where references are required.</summary>
internal static class ReferenceProgram
{
    /// <summary>Whether a missing reference counts as a failure, as it does in .ci/run.</summary>
    public static bool Required => string.Equals(Environment.GetEnvironmentVariable("ATHWART_REQUIRE_REFERENCES"), "1", StringComparison.Ordinal);

    /// <summary>The full path of a program on PATH; skips or fails the test when it is not there.</summary>
    public static string Require(string program)
    {
        foreach (var folder in (Environment.GetEnvironmentVariable("PATH") ?? "").Split(Path.PathSeparator))
        {
            var candidate = Path.Combine(folder, program);
            if (File.Exists(candidate))
                return candidate;
        }

        return Missing<string>($"the program '{program}' is not on this machine; .ci/run installs it");
    }

    /// <summary>A file or folder that a reference package brings.</summary>
    public static string RequirePath(string path) => Path.Exists(path)
        ? path
        : Missing<string>($"'{path}' is not on this machine; .ci/run installs it");

    /// <summary>Skips the test with the reason, or fails it where references are required.</summary>
    public static T Missing<T>(string reason)
    {
        if (Required)
            Assert.Fail(reason);
        Assert.Skip(reason);
        throw new UnreachableException();
    }

    /// <summary>Runs a program to its end and returns exit code and both outputs.</summary>
    public static ProgramOutput Run(string program, params string[] arguments)
    {
        var start = new ProcessStartInfo(program) { RedirectStandardOutput = true, RedirectStandardError = true, UseShellExecute = false };
        foreach (var argument in arguments)
            start.ArgumentList.Add(argument);
        using var process = Process.Start(start) ?? throw new InvalidOperationException($"{program} did not start");
        var error = process.StandardError.ReadToEndAsync();
        var output = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        return new(process.ExitCode, output, error.GetAwaiter().GetResult());
    }
}

/// <summary>What a program left behind.</summary>
internal sealed record ProgramOutput(int ExitCode, string Output, string Error);
