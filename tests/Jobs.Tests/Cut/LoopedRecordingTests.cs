using Athwart.Jobs.Render;
using Athwart.Jobs.Tests.Render;
using Athwart.Recordings;
using Athwart.Signals.Loops;
using Athwart.Tests.Shared;
using CsCheck;

namespace Athwart.Jobs.Tests.Cut;

public sealed class LoopedRecordingTests : IDisposable
{
    private const int From = 1500, To = 4000, Crossfade = 700, Frames = 6000;

    private readonly TemporaryFolder _folder = new();

    [Fact]
    public void OutsideTheCrossfade_EveryStepIsAsItWasRecorded_AndInsideItTheSeamIsBlended()
    {
        using var file = RecordingFile.Open(TestTakes.Write(_folder.File("weir.wav"), SampleFormat.Int24, Frames));
        var (raw, looped) = (Read(file, Frames), Read(Loop(file), Frames));
        for (var c = 0; c < 2; c++)
        {
            Assert.Equal(raw[c][..(To - Crossfade)], looped[c][..(To - Crossfade)]);
            // After the end the cut comes again.
            Assert.Equal(looped[c][From..(From + Frames - To)], looped[c][To..]);
            for (var n = 0; n < Crossfade; n++)
            {
                var (a, b) = LoopCrossfade.Gains(n, new(Crossfade, 0.25));
                Assert.Equal((int)Math.Round((a * raw[c][To - Crossfade + n]) + (b * raw[c][From - Crossfade + n])), looped[c][To - Crossfade + n]);
            }
        }
    }

    [Fact]
    public void HoweverItIsRead_TheStepsAreTheSame()
    {
        using var file = RecordingFile.Open(TestTakes.Write(_folder.File("weir.wav"), SampleFormat.Int24, Frames));
        var loop = Loop(file);
        var whole = Read(loop, 3 * Frames);
        for (var n = To; n < 3 * Frames; n++)
            Assert.Equal((whole[0][n - To + From], whole[1][n - To + From]), (whole[0][n], whole[1][n]));
        Gen.Select(Gen.Int[0, Frames - 1], Gen.Int[1, 12_000]).Sample(piece =>
        {
            var (first, wanted) = piece;
            var block = new PlanarBlock<int>(2, wanted);
            Assert.Equal(wanted, loop.Read(first, wanted, block));
            for (var c = 0; c < 2; c++)
                Assert.Equal(whole[c][first..(first + wanted)], block.Channel(c).ToArray());
        });
    }

    [Fact]
    public void ARecipeWhoseLoopCannotBe_IsRefused()
    {
        foreach (var (loop, fade) in new[] { (new RecipeLoop(0, 0), 0L), (new RecipeLoop(1501, 0), 0), (new RecipeLoop(100, 2), 0), (new RecipeLoop(100, 0), 10) })
        {
            var recipe = new Recipe
            {
                Source = new() { FromFrame = From, ToFrame = To, SampleRateHertz = 48000, Loop = loop },
                Treatment = new() { SideGain = 1, FadeInFrames = fade },
                Output = new() { SampleRateHertz = 48000, Word = OutputWord.Signed24 },
            };
            Assert.Equal(RenderErrorKind.Recipe, Assert.Throws<RenderException>(() => RecipeFiles.FromJson(RecipeFiles.ToJson(recipe))).Kind);
        }
    }

    public void Dispose() => _folder.Dispose();

    private static IRecording Loop(IRecording source) =>
        LoopedRecording.Of(source, new() { FromFrame = From, ToFrame = To, SampleRateHertz = 48000, Loop = new(Crossfade, 0.25) });

    private static int[][] Read(IRecording recording, int frames)
    {
        var block = new PlanarBlock<int>(2, frames);
        Assert.Equal(frames, recording.Read(0, frames, block));
        return [block.Channel(0).ToArray(), block.Channel(1).ToArray()];
    }
}
