using System.Diagnostics;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using System.Security.Cryptography;
using Athwart.Quantities;
using Athwart.Signals.Convolution;
using Athwart.Signals.Decoding;
using Athwart.Signals.Dither;
using Athwart.Signals.FixedMath;
using Athwart.Signals.Resampling;
using Athwart.Signals.Shaping;
using Athwart.Signals.Tests.Shaping;

namespace Athwart.Signals.Tests;

/// <summary>The audio path computes the same bits with and without vector instructions: this assembly runs again with them switched off.</summary>
public sealed class HardwareIndependenceTests
{
    private const string DigestVariable = "ATHWART_DIGEST_FILE";

    [Fact]
    public void AudioPath_WithoutHardwareIntrinsics_GivesTheSameDigest()
    {
        if (Environment.GetEnvironmentVariable(DigestVariable) is { } file)
        {
            // The child: leaves its digest, and whether vectors were really off.
            File.WriteAllLines(file, [Digest(), Vector256.IsHardwareAccelerated.ToString()]);
            return;
        }

        using var folder = new Athwart.Tests.Shared.TemporaryFolder();
        var (exitCode, output) = Child(folder.File("digest"), "-method", $"{typeof(HardwareIndependenceTests).FullName}.{nameof(AudioPath_WithoutHardwareIntrinsics_GivesTheSameDigest)}");
        Assert.True(exitCode == 0, output);
        Assert.Equal([Digest(), "False"], File.ReadAllLines(folder.File("digest")));
    }

    [Fact]
    public void KernelTests_WithoutHardwareIntrinsics_Pass()
    {
        if (Environment.GetEnvironmentVariable(DigestVariable) is not null)
            return;
        var (exitCode, output) = Child("unused", "-class", "*.MidSideTests", "-class", "*.ExactMidSideTests", "-class", "*.QuantizerTests", "-class", "*.FixedMathTests",
            "-class", "*.FixedExponentialTests", "-class", "*.FixedFourierTransformTests", "-class", "*.SectionStageTests", "-class", "*.DelayTests", "-class", "*.SimpleStageTests");
        Assert.True(exitCode == 0, output);
        Assert.Contains("Failed: 0", output, StringComparison.Ordinal);
        Assert.DoesNotContain("Total: 0", output, StringComparison.Ordinal);
    }

    private static string Digest()
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        void Add<T>(ReadOnlySpan<T> values) where T : unmanaged => hash.AppendData(MemoryMarshal.AsBytes(values));
        const int Length = 3001;
        var random = new Random(17);
        int[] mid = new int[Length], side = new int[Length], left = new int[Length], right = new int[Length];
        double[] wave = new double[Length], other = new double[Length];
        for (var n = 0; n < Length; n++)
        {
            mid[n] = random.Next(-(1 << 23), 1 << 23);
            side[n] = random.Next(-(1 << 23), 1 << 23);
            wave[n] = mid[n] / 8388608.0;
            other[n] = side[n] / 8388608.0;
        }

        foreach (var gain in new[] { 0.5, 1.2, FixedGain.AmplitudeRatio(-3), -2.5 })
        {
            ExactMidSide.Decode(mid, side, gain, new TriangularDither(3, 0), 1000, left, right);
            Add<int>(left);
            Add<int>(right);
            ExactMidSide.Recover(left, right, gain, new TriangularDither(3, 0), 1000, left, right);
            Add<int>(right);
        }

        foreach (var bits in new[] { 16, 24, 32 })
        {
            Quantizer.Quantize(wave, bits, new TriangularDither(4, 1), 5, left);
            Add<int>(left);
        }

        foreach (var (from, to) in new[] { (96000, 48000), (44100, 48000), (192000, 44100), (48000, 96000) })
        {
            double[] a = new double[701], b = new double[701];
            new SampleRateConverter(from, to).Convert(wave, other, 0, 3, a, b);
            Add<double>(a);
            Add<double>(b);
        }

        foreach (var stage in Stages())
        {
            var (m, s) = StageProof.Run(stage, wave, other, -40, 777);
            Add<double>(m);
            Add<double>(s);
        }

        double[] l = new double[Length], r = new double[Length];
        MidSide.Decode(wave, other, 0.7, l, r);
        Add<double>(l);
        Add<double>(r);
        return Convert.ToHexStringLower(hash.GetHashAndReset());
    }

    // One of each step that shapes samples.
    private static IPairStage[] Stages()
    {
        const int Rate = 48000;
        CurvePoint[] points = [new(100, 3), new(1000, -2), new(8000, 4)];
        FrameRange[] ranges = [FrameRange.FromFrames(900, 940), FrameRange.FromFrames(2000, 2003)];
        return
        [
            new SwapStage(), new InvertStage(new(PairRoles.Side)), new TrimStage(new(PairRoles.Both, -3)),
            new LowCutStage(new(PairRoles.Both, 80, 30), Rate), new HighCutStage(new(PairRoles.Mid, 18000, 12), Rate),
            new BellStage(new(PairRoles.Side, 16000, 6, 0.7), Rate), new LowShelfStage(new(PairRoles.Both, 200, 6, 0.7), Rate), new HighShelfStage(new(PairRoles.Mid, 9000, -6, 0.7), Rate),
            new DelayStage(new(PairRoles.Side, -0.123), Rate), new ResponseMatchStage(new(PairRoles.Side, points), Rate),
            new WidthCurveStage(new(points, FilterPhase.Linear), Rate), new ShufflerStage(new(600, 6, ShufflerLaw.WidthMatrix, FilterPhase.Minimum), Rate),
            new MonoBelowStage(new(150, 24, FilterPhase.Linear), Rate), new HumCutStage(new(PairRoles.Both, [new(0, 50), new(2000, 51)], [1, 3], 2, 60), Rate),
            new RepairStage(new(PairRoles.Both, ranges), Rate, 3001), new WindReductionStage(new(ranges, 150, 5), Rate),
        ];
    }

    private static (int ExitCode, string Output) Child(string digestFile, params string[] arguments)
    {
        var start = new ProcessStartInfo("dotnet") { RedirectStandardOutput = true, RedirectStandardError = true, UseShellExecute = false };
        foreach (var argument in (string[])["exec", typeof(HardwareIndependenceTests).Assembly.Location, .. arguments, "-noColor"])
            start.ArgumentList.Add(argument);
        start.Environment["DOTNET_EnableHWIntrinsic"] = "0";
        start.Environment[DigestVariable] = digestFile;
        using var process = Process.Start(start)!;
        var error = process.StandardError.ReadToEndAsync();
        var output = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        return (process.ExitCode, output + error.GetAwaiter().GetResult());
    }
}
