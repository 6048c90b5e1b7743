using Athwart.Jobs.Render;
using Athwart.Jobs.Roles;
using Athwart.Jobs.Shape;
using Athwart.Quantities;
using Athwart.Recordings;
using Athwart.Signals.Convolution;
using Athwart.Signals.Shaping;
using Athwart.Tests.Shared;
using CsCheck;

namespace Athwart.Jobs.Tests.Shape;

/// <summary>Every step that says it leaves the mid alone folds to the same mid, whatever its settings and whatever other such steps stand beside it.</summary>
public sealed class MonoFoldTests : IDisposable
{
    private const int Frames = 9000;
    private static readonly RoleAssignment Roles = new() { MidChannel = 0, SideChannel = 1, Evidence = RoleEvidence.ChannelOrder, Explanation = "" };
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    private static Gen<T> One<T>(params T[] values) => Gen.Int[0, values.Length - 1].Select(i => values[i]);

    private static Gen<FilterPhase> Phase => One(FilterPhase.Minimum, FilterPhase.Linear);

    private static Gen<int> Slope => One(6, 12, 18, 24, 48);

    private static Gen<double> Hertz => Gen.Double[40, 12_000];

    private static Gen<double> Gain => Gen.Double[-12, 6];

    private static Gen<FrameRange> Gap => Gen.Select(Gen.Int[10, 8000], Gen.Int[1, 200], (from, length) => FrameRange.FromFrames(from, from + length));

    private static IReadOnlyList<CurvePoint> Points(double low, double high, double a, double b) => [new(low, a), new(low + high, b)];

    private static Gen<object> Settings { get; } = Gen.OneOf<object>(
        Gen.Const<object>(new Invert(PairRoles.Side)),
        Gain.Select(g => (object)new Trim(PairRoles.Side, g)),
        Gen.Double[0, 20].Select(ms => (object)new Delay(PairRoles.Side, ms)),
        Gen.Double[-20, 0].Select(ms => (object)new Delay(PairRoles.Side, ms)),
        Gen.Select(Hertz, Slope, (f, s) => (object)new LowCut(PairRoles.Side, f, s)),
        Gen.Select(Hertz, Slope, (f, s) => (object)new HighCut(PairRoles.Side, f, s)),
        Gen.Select(Hertz, Gain, (f, g) => (object)new Bell(PairRoles.Side, f, g, 1.2)),
        Gen.Select(Hertz, Gain, (f, g) => (object)new LowShelf(PairRoles.Side, f, g, 0.7)),
        Gen.Select(Hertz, Gain, (f, g) => (object)new HighShelf(PairRoles.Side, f, g, 0.7)),
        Gen.Select(Gain, Gain, Phase, (a, b, p) => (object)new ResponseMatch(PairRoles.Side, Points(1000, 250, a, b), p)),
        Gen.Double[45, 65].Select(f => (object)new HumCut(PairRoles.Side, [new(0, f), new(8000, f + 0.1)], [1, 2, 3], 1, 20)),
        Gap.Select(g => (object)new Repair(PairRoles.Side, [g])),
        Gen.Select(Gap, Gen.Double[60, 400], (g, f) => (object)new WindReduction([g], f, 20)),
        Gen.Select(Gain, Gain, Phase, (a, b, p) => (object)new WidthCurve(Points(200, 4000, a, b), p)),
        Gen.Select(Hertz, Gain, Phase, (f, g, p) => (object)new Shuffler(Math.Clamp(f, 100, 2000), g, ShufflerLaw.SideOnly, p)),
        Gen.Select(Gen.Double[60, 500], Phase, (f, p) => (object)new MonoBelow(f, 24, p)),
        Gen.Double[-45, 45].Select(d => (object)new Balance(d)),
        Gen.Select(Gain, Gain, (a, b) => (object)new WidthOverTime([new(0, a), new(5000, b)])),
        Gen.Select(One(MadeUpMethod.AllPass, MadeUpMethod.VelvetNoise), Gen.Int[0, 99], Gen.Bool, (m, seed, keeps) => (object)new MadeUpSide(m, seed: seed, keepsSide: keeps)),
        Gen.Select(Gain, Gain, (a, b) => (object)new TransientBalance(PairRoles.Side, a, b)),
        Gen.Select(One(FollowedQuantity.Brightness, FollowedQuantity.Pitch), Gain, Gain, (q, a, b) => (object)new WidthFollows(q, 200, 4000, a, b)),
        Gen.Select(Gain, Gain, (a, b) => (object)new WidthFollows(FollowedQuantity.Level, -60, -10, a, b)),
        Gen.Double[0.5, 2].Select(r => (object)new Speed(r, PairRoles.Side)),
        Gen.Double[0, 0.6].Select(c => (object)new MonoGuard(c)));

    // Decode of any side-only treatment folds to the same mid, to the bit in float.
    [Fact]
    public void AnyTreatmentOfTheSideAlone_FoldsToTheMidAsRecorded_ToTheBit()
    {
        using var take = Take();
        var raw = new double[Frames];
        Read(take, [], raw);
        HashSet<string> seen = [];
        Settings.Array[1, 4].Sample(settings =>
        {
            TreatmentStep[] steps = [.. settings.Select(s => TreatmentStep.Of(s))];
            Assert.All(steps, s => Assert.False(s.Kind.Changes(s.Settings).HasFlag(PairRoles.Mid), s.ToString()));
            var mid = new double[Frames];
            Read(take, steps, mid);
            Assert.Equal(raw.Select(BitConverter.DoubleToInt64Bits), mid.Select(BitConverter.DoubleToInt64Bits));
            lock (seen)
                seen.UnionWith(steps.Select(s => s.Kind.Name));
        }, iter: 300, threads: 2, seed: "0000VJ0pQFb1");
        // What has no such settings changes the mid by nature, or is settled into other steps before it works.
        Assert.Equal(["rig-match", "side-alone", "swap"], StepKinds.All.Select(k => k.Name).Except(seen, StringComparer.Ordinal).Order(StringComparer.Ordinal), StringComparer.Ordinal);
    }

    // Written as integers the fold is exact; as floats left and right are rounded by half a unit in their last place each.
    [Fact]
    public void WhatIsRendered_FoldsToTheMid()
    {
        using var take = Take();
        var mids = new double[Frames];
        Read(take, [], mids);
        Settings.Array[1, 3].Sample(
            settings =>
            {
                TreatmentStep[] steps = [.. settings.Select(s => TreatmentStep.Of(s))];
                foreach (var word in new[] { OutputWord.Signed32, OutputWord.Floating })
                {
                    var path = _folder.File("out.wav");
                    var recipe = new Recipe
                    {
                        Source = new() { ToFrame = Frames, SampleRateHertz = take.SampleRateHertz },
                        Treatment = new() { SideLevelDecibels = 0, SideGain = 1, Steps = steps },
                        Output = new() { SampleRateHertz = take.SampleRateHertz, Word = word },
                    };
                    RenderEngine.Render(take, recipe, path, new() { Threads = 1, Durable = false, Overwrite = true }, CancellationToken.None);
                    var stereo = Render.TestTakes.Samples(path);
                    for (var n = 0; n < Frames; n++)
                    {
                        var half = word == OutputWord.Floating ? (Unit(stereo[0][n]) + Unit(stereo[1][n])) / 4 : 0;
                        Assert.InRange(((stereo[0][n] + stereo[1][n]) / 2) - mids[n], -half, half);
                    }
                }
            },
            iter: 20,
            threads: 1,
            seed: "0000VJ0pQFb1");

        static double Unit(double sample) => MathF.BitIncrement(Math.Abs((float)sample)) - Math.Abs((float)sample);
    }

    private RecordingFile Take() => RecordingFile.Open(Render.TestTakes.Write(_folder.File("gate.wav"), SampleFormat.Int24, Frames, 0.05));

    private static void Read(IRecording take, IReadOnlyList<TreatmentStep> steps, double[] mid)
    {
        var pair = TreatedStream.Open(take, Roles, steps, 1, 0, Frames).Pair;
        pair.Begin(0);
        pair.Read(mid, new double[mid.Length]);
    }
}
