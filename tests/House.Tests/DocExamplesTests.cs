using System.Diagnostics;
using Athwart.Tests.Shared;

namespace Athwart.House.Tests;

public sealed class DocExamplesTests
{
    internal const string Page = """
        ```console
        $ athwart decode pair.wav "stereo out.wav" --side-level -3
        wrote stereo out.wav
        $ athwart verify 'my delivery' \
              --json
        ```
        ```console exit=5
        $ athwart decode pair.wav stereo.wav
        ```
        ```sh
        $ athwart not collected
        ```
        ```console
        $ ls
        $ athwart not collected either
        ```
        """;

    [Fact]
    public void TheReader_CollectsCommandsWithTheirWordsAndExitCodes()
    {
        var examples = DocExamples.In("page.md", Page);

        Assert.Equal(
            [("page.md", 2, 0), ("page.md", 4, 0), ("page.md", 8, 5)],
            examples.Select(example => (example.File, example.Line, example.ExitCode)));
        Assert.Equal(["decode", "pair.wav", "stereo out.wav", "--side-level", "-3"], examples[0].Arguments);
        Assert.Equal(["verify", "my delivery", "--json"], examples[1].Arguments);
    }

    [Fact]
    public void AnUnclosedQuote_IsAnError() =>
        Assert.Throws<FormatException>(() => DocExamples.In("page.md", "```console\n$ athwart check 'pair.wav\n```"));

    [Fact]
    public void AnUnclosedFence_IsAnError() =>
        Assert.Throws<FormatException>(() => DocExamples.In("page.md", "```console\n$ athwart check pair.wav\n"));

    [Fact]
    public void EveryCommandOfTheProgram_HasAnExample()
    {
        string[] commands = ["kit", "rig", "take-in", "check", "decode", "cut", "deliver", "render", "verify", "salvage", "demo"];

        var shown = PagesWithExamples().SelectMany(Examples).Select(example => example.Arguments[0]).ToHashSet(StringComparer.Ordinal);

        Assert.Subset(shown, commands.ToHashSet(StringComparer.Ordinal));
    }

    public static TheoryData<string> Pages() => [.. PagesWithExamples()];

    /// <summary>A page is read from top to bottom, so its examples run in that order in one folder.</summary>
    [Theory]
    [MemberData(nameof(Pages))]
    public void TheExamplesOfThePage_EndAsItSays(string page)
    {
        var program = BuiltProgram();
        using var folder = new TemporaryFolder();
        ExampleRecordings.Write(folder.Path);
        foreach (var example in Examples(page))
        {
            var result = Run(program, folder.Path, example.Arguments);
            Assert.True(
                result.ExitCode == example.ExitCode,
                $"{example}\nended with {result.ExitCode}, the page says {example.ExitCode}\n{result.Output}\n{result.Error}");
        }
    }

    private static IEnumerable<string> PagesWithExamples() => Repository.Files("*.md").Where(file => Examples(file).Count > 0);

    private static IReadOnlyList<DocExample> Examples(string page) => DocExamples.In(page, Repository.Read(page));

    /// <summary>The program built with these tests, from the folder of the same configuration.</summary>
    private static string BuiltProgram()
    {
        var framework = new DirectoryInfo(AppContext.BaseDirectory.TrimEnd(Path.DirectorySeparatorChar));
        var configuration = framework.Parent!.Name;
        var program = Repository.PathOf("src", "Cli", "bin", configuration, framework.Name, "athwart.dll");
        Assert.True(File.Exists(program), $"{program} is not built");
        return Run(program, Path.GetTempPath(), ["--help"]).Output.Length > 0
            ? program
            : ReferenceProgram.Missing<string>("the command line prints no help yet");
    }

    private static ProgramOutput Run(string program, string folder, IReadOnlyList<string> arguments)
    {
        var start = new ProcessStartInfo("dotnet")
        {
            WorkingDirectory = folder,
            UseShellExecute = false,
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        start.ArgumentList.Add(program);
        foreach (var argument in arguments)
            start.ArgumentList.Add(argument);
        using var process = Process.Start(start)!;
        process.StandardInput.Close();
        var output = process.StandardOutput.ReadToEndAsync();
        var error = process.StandardError.ReadToEndAsync();
        if (process.WaitForExit(TimeSpan.FromMinutes(2)))
            return new(process.ExitCode, output.GetAwaiter().GetResult(), error.GetAwaiter().GetResult());
        process.Kill(entireProcessTree: true);
        return new(-1, "", $"still running after two minutes: athwart {string.Join(' ', arguments)}");
    }
}
