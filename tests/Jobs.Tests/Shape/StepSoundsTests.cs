using Athwart.Jobs.Shape.Sounds;
using Athwart.Tests.Shared;

namespace Athwart.Jobs.Tests.Shape;

/// <summary>The sounds and pictures of docs/shaping-steps.md.</summary>
public sealed class StepSoundsTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    public static TheoryData<string> Names => [.. StepSounds.All.Select(s => s.Name)];

    [Theory]
    [MemberData(nameof(Names))]
    public void AStep_IsHeardBeforeAndAfter_AndItsPictureInThePageIsTheOneThatIsDrawn(string name)
    {
        var made = Assert.Single(StepSoundsJob.Run(new(_folder.Path, name, false), CancellationToken.None));
        double[][] raw = Render.TestTakes.Samples(made.Files[0]), before = Render.TestTakes.Samples(made.Files[1]), after = Render.TestTakes.Samples(made.Files[2]);
        Assert.NotEqual(before[1], after[1]);
        Assert.All(before.Concat(after), channel => Assert.InRange(channel.Max(Math.Abs), 0.02, 0.99));
        Assert.All(Enumerable.Range(0, raw[0].Length), n => Assert.Equal(raw[0][n], (before[0][n] + before[1][n]) / 2, 1e-6));
        var page = Path.Combine(Docs, name + ".svg");
        Assert.True(File.Exists(page), page + " is missing; 'athwart shape sounds' draws it.");
        Assert.Equal(File.ReadAllText(page).ReplaceLineEndings("\n"), File.ReadAllText(made.Files[3]).ReplaceLineEndings("\n"));
    }

    [Fact]
    public void AFileThatIsThere_StaysUnlessAsked_AndAnUnknownStepIsNamed()
    {
        var there = _folder.File("speed.after.wav");
        File.WriteAllText(there, "mine");
        Assert.Equal(JobErrorKind.Refused, Assert.Throws<JobException>(() => StepSoundsJob.Run(new(_folder.Path, "speed", false), CancellationToken.None)).Kind);
        Assert.Equal("mine", File.ReadAllText(there));
        Assert.Contains("mono-guard", Assert.Throws<JobException>(() => StepSoundsJob.Run(new(_folder.Path, "polish", false), CancellationToken.None)).Message, StringComparison.Ordinal);
    }

    private static string Docs
    {
        get
        {
            var folder = AppContext.BaseDirectory;
            while (!File.Exists(Path.Combine(folder, "Athwart.slnx")))
                folder = Path.GetDirectoryName(folder)!;
            return Path.Combine(folder, "docs", "steps");
        }
    }
}
