using System.Diagnostics;
using System.Runtime.Intrinsics;
using Athwart.Jobs.Decode;
using Athwart.Jobs.Render;
using Athwart.Jobs.Shape;
using Athwart.Recordings;
using Athwart.Tests.Shared;

namespace Athwart.Jobs.Tests.Render;

/// <summary>Whole files come out the same with vector instructions switched off: this assembly runs again as a child and renders the recipes.</summary>
public sealed class RenderWithoutVectorsTests
{
    private const string FolderVariable = "ATHWART_RENDER_FOLDER";

    [Fact]
    public void Render_WithoutHardwareIntrinsics_GivesTheSameWholeFiles()
    {
        if (Environment.GetEnvironmentVariable(FolderVariable) is { } given)
        {
            Assert.False(Vector256.IsHardwareAccelerated);
            foreach (var recipe in Directory.GetFiles(given, "*.recipe.json"))
                Assert.True(RenderJob.Run(new() { RecipePath = recipe, OutputPath = recipe + ".wav", Options = new() { Durable = false } }, CancellationToken.None).IsSame, recipe);
            File.WriteAllText(Path.Combine(given, "done"), "");
            return;
        }

        using var folder = new TemporaryFolder();
        var source = TestTakes.Write(folder.File("gate.wav"), SampleFormat.Int24, 9_000);
        foreach (var request in new DecodeRequest[]
        {
            new() { Inputs = [source], Output = folder.File("exact.wav"), SideLevel = new(-3), FadeInFrames = 500 },
            new() { Inputs = [source], Output = folder.File("short.wav"), SideLevel = new(1.5), Word = OutputWord.Signed16 },
            new() { Inputs = [source], Output = folder.File("rate.wav"), SideLevel = new(-6), SampleRateHertz = 44100, Trim = new(TrimKind.SamplePeak, -1) },
            new() { Inputs = [source], Output = folder.File("treated.wav"), SideLevel = new(-3), Treatment = Treated("Machine"), Trim = new(TrimKind.SamplePeak, -1) },
            new() { Inputs = [source], Output = folder.File("side.wav"), SideLevel = new(-3), Treatment = Treated("Pass-by"), Word = OutputWord.Signed32, Trim = new(TrimKind.SamplePeak, -1) },
            new() { Inputs = [source], Output = folder.File("slow.wav"), SideLevel = new(-3), Treatment = Treated("Ultrasonic slowed down"), SampleRateHertz = 44100, Trim = new(TrimKind.SamplePeak, -1) },
            new() { Inputs = [source], Output = folder.File("made up.wav"), SideLevel = new(-3), Treatment = Treated("Mono made wide"), Word = OutputWord.Floating },
            new() { Inputs = [source], Output = folder.File("float.wav"), SideLevel = new(-6), SampleRateHertz = 96000, Word = OutputWord.Floating },
        })
            Assert.True(DecodeJob.Run(request with { WriteRecipe = true }, CancellationToken.None).Succeeded);
        var (exitCode, output) = Child(folder.Path);
        Assert.True(exitCode == 0, output);
        Assert.True(File.Exists(folder.File("done")), output);
    }

    private static Treatment Treated(string name) => StartingTreatments.Find(name)!;

    private static (int ExitCode, string Output) Child(string folder)
    {
        var start = new ProcessStartInfo("dotnet") { RedirectStandardOutput = true, RedirectStandardError = true, UseShellExecute = false };
        foreach (var argument in (string[])["exec", typeof(RenderWithoutVectorsTests).Assembly.Location, "-method", $"{typeof(RenderWithoutVectorsTests).FullName}.{nameof(Render_WithoutHardwareIntrinsics_GivesTheSameWholeFiles)}", "-noColor"])
            start.ArgumentList.Add(argument);
        start.Environment["DOTNET_EnableHWIntrinsic"] = "0";
        start.Environment[FolderVariable] = folder;
        using var process = Process.Start(start)!;
        var error = process.StandardError.ReadToEndAsync();
        var output = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        return (process.ExitCode, output + error.GetAwaiter().GetResult());
    }
}
