using Athwart.Jobs.Shape;
using Athwart.Recordings;
using Athwart.Tests.Shared;
using CsCheck;

namespace Athwart.Jobs.Tests.Shape;

public sealed class TreatedPairTests : IDisposable
{
    private const int Frames = 20_000;
    private readonly TemporaryFolder _folder = new();
    private readonly RecordingFile _take;
    private readonly double[][] _raw;

    public TreatedPairTests()
    {
        var path = Render.TestTakes.Write(_folder.File("gate.wav"), SampleFormat.Int24, Frames);
        _take = RecordingFile.Open(path);
        _raw = Render.TestTakes.Samples(path);
    }

    public void Dispose()
    {
        _take.Dispose();
        _folder.Dispose();
    }

    // What a stage delays by looking ahead is made good, and what it needs from before is there: a mean around a frame is that mean.
    [Fact]
    public void StagesThatLookAheadAndBack_GiveEachFrameAtItsOwnPlace_WithTheSoundBeforeAndAfterTheCut()
    {
        var pair = new TreatedPair(new TakePair(_take, 0, 1, false), [new MovingMean(3, 5), new MovingMean(40, 0)]);
        var (mid, side) = Read(pair, 1_000, 500);

        for (var n = 0; n < 500; n++)
        {
            var expected = 0.0;
            for (var outer = 0; outer <= 40; outer++)
            {
                for (var inner = -5; inner <= 3; inner++)
                    expected += _raw[0][1_000 + n + outer + inner] / (9 * 41);
            }

            Assert.Equal(expected, mid[n], 1e-12);
        }

        Assert.Equal(500, side.Length);
    }

    [Fact]
    public void ACutAtTheStartAndTheEndOfTheTake_HasSilenceBeyond()
    {
        var pair = new TreatedPair(new TakePair(_take, 0, 1, false), [new MovingMean(2, 2)]);
        var first = Read(pair, 0, 3).Mid[0];
        Assert.Equal((_raw[0][0] + _raw[0][1] + _raw[0][2]) / 5, first, 1e-15);

        var last = Read(pair, Frames - 1, 1).Mid[0];
        Assert.Equal((_raw[0][^1] + _raw[0][^2] + _raw[0][^3]) / 5, last, 1e-15);
    }

    [Fact]
    public void AnySplitIntoBlocks_GivesTheSameBits()
    {
        var whole = Read(new TreatedPair(new TakePair(_take, 0, 1, true), [new MovingMean(7, 11), new MovingMean(0, 3)]), 100, 9_000);
        Gen.Int[1, 4_000].Array[1, 12].Sample(lengths =>
        {
            var pair = new TreatedPair(new TakePair(_take, 0, 1, true), [new MovingMean(7, 11), new MovingMean(0, 3)]);
            pair.Begin(100);
            double[] mid = new double[9_000], side = new double[9_000];
            for (int at = 0, i = 0; at < mid.Length; i++)
            {
                var count = Math.Min(lengths[i % lengths.Length], mid.Length - at);
                pair.Read(mid.AsSpan(at, count), side.AsSpan(at, count));
                at += count;
            }

            Assert.Equal(whole.Mid, mid);
            Assert.Equal(whole.Side, side);
        }, iter: 10, threads: 1);
    }

    [Fact]
    public void EveryStage_BeginsAtTheNumberOfTheFrameThatEntersIt()
    {
        MovingMean first = new(3, 5), second = new(4, 6);
        var pair = new TreatedPair(new TakePair(_take, 0, 1, false), [first, second]);
        pair.Begin(1_000);
        Assert.Equal((989, 986), (first.Began, second.Began));
        // Before the take there is nothing to settle to.
        pair.Begin(4);
        Assert.Equal((0, -3), (first.Began, second.Began));
    }

    [Fact]
    public void ATakeWithoutASide_HasASilentOne()
    {
        var (mid, side) = Read(new TakePair(_take, 1, null, true), 10, 50);
        Assert.Equal(_raw[1][10..60], mid);
        Assert.All(side, s => Assert.Equal(0, s));
    }

    [Fact]
    public void SamplesThatAreNoNumbers_BecomeSilence_AndAreCounted()
    {
        var path = _folder.File("nan.wav");
        WriteFloats(path, 1_000, (20, 0, float.NaN), (30, 1, float.PositiveInfinity), (999, 0, float.NegativeInfinity));
        using var file = RecordingFile.Open(path);
        var take = new TakePair(file, 0, 1, false);
        var (mid, side) = Read(take, 0, 1_000);
        Assert.Equal((3, 20), (take.NotFinite, take.FirstNotFinite));
        Assert.Equal((0, 0, 0), (mid[20], side[30], mid[999]));
        Assert.Equal(0.25, mid[21]);
    }

    internal static void WriteFloats(string path, int frames, params (int Frame, int Channel, float Value)[] odd)
    {
        using var writer = WaveWriter.Create(path, new() { ChannelCount = 2, SampleRateHertz = 48000, Format = SampleFormat.Float32, Durable = false });
        PlanarBlock<float> block = new(2, frames) { Length = frames };
        block.Channel(0).Fill(0.25f);
        block.Channel(1).Fill(0.125f);
        foreach (var (frame, channel, value) in odd)
            block.Channel(channel)[frame] = value;
        writer.Write(block);
        writer.Complete();
    }

    private static (double[] Mid, double[] Side) Read(IPairStream stream, long from, int count)
    {
        double[] mid = new double[count], side = new double[count];
        stream.Begin(from);
        stream.Read(mid, side);
        return (mid, side);
    }
}
