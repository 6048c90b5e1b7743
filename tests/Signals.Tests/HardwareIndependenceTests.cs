using System.Diagnostics;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using System.Security.Cryptography;
using Athwart.Signals.Decoding;
using Athwart.Signals.Dither;
using Athwart.Signals.FixedMath;
using Athwart.Signals.Resampling;

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
        var (exitCode, output) = Child("unused", "-class", "*.MidSideTests", "-class", "*.ExactMidSideTests", "-class", "*.QuantizerTests", "-class", "*.FixedMathTests");
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

        double[] l = new double[Length], r = new double[Length];
        MidSide.Decode(wave, other, 0.7, l, r);
        Add<double>(l);
        Add<double>(r);
        return Convert.ToHexStringLower(hash.GetHashAndReset());
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
