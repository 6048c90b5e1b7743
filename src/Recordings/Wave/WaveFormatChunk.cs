using System.Buffers.Binary;
using System.Globalization;

namespace Athwart.Recordings;

/// <summary>The `fmt ` chunk: RIFF 1991/1994, EXTENSIBLE as in mmreg.h.</summary>
internal sealed record WaveFormatChunk(int ChannelCount, int SampleRateHertz, SampleFormat Format, uint ChannelMask, string? Disagreement)
{
    private const ushort Pcm = 1;
    private const ushort IeeeFloat = 3;
    private const ushort Extensible = 0xFFFE;

    /// <summary>Bytes 4 to 15 of the SubFormat GUID xxxxxxxx-0000-0010-8000-00AA00389B71.</summary>
    private static ReadOnlySpan<byte> WaveGuidTail => [0, 0, 0x10, 0, 0x80, 0, 0, 0xAA, 0, 0x38, 0x9B, 0x71];

    /// <summary>Bytes 4 to 15 of the GUID of first-order ambisonic files, xxxxxxxx-0721-11D3-8644-C8C1CA000000.</summary>
    private static ReadOnlySpan<byte> AmbisonicGuidTail => [0x21, 0x07, 0xD3, 0x11, 0x86, 0x44, 0xC8, 0xC1, 0xCA, 0, 0, 0];

    /// <summary>Reads the chunk or refuses the file.</summary>
    public static WaveFormatChunk Parse(ReadOnlySpan<byte> data, string path, long offset)
    {
        if (data.Length < 16)
            throw Refuse(RecordingErrorKind.Malformed, path, offset, $"a fmt chunk has at least 16 bytes, this one {data.Length}", "Copy the file from the card again; if it stays so its header is lost");
        var tag = BinaryPrimitives.ReadUInt16LittleEndian(data);
        var channels = BinaryPrimitives.ReadUInt16LittleEndian(data[2..]);
        var rate = BinaryPrimitives.ReadUInt32LittleEndian(data[4..]);
        var blockAlign = BinaryPrimitives.ReadUInt16LittleEndian(data[12..]);
        int bits = BinaryPrimitives.ReadUInt16LittleEndian(data[14..]);
        CheckCounts(channels, rate, path, offset);
        var (valid, mask) = (bits, 0u);
        if (tag == Extensible)
            (tag, valid, mask) = ReadExtension(data, bits, path, offset);
        var (format, disagreement) = Judge(tag, channels, blockAlign, bits, valid, path, offset);
        return new(channels, (int)rate, format, mask, disagreement);
    }

    private static void CheckCounts(int channels, uint rate, string path, long offset)
    {
        if (channels == 0)
            throw Refuse(RecordingErrorKind.Malformed, path, offset + 2, "a recording has at least one channel, this header says 0", "The header is damaged; copy the file from the card again");
        if (channels > 64)
            throw Refuse(RecordingErrorKind.Unsupported, path, offset + 2, $"up to 64 channels are read, this header says {channels}", "Split the recording into files of at most 64 channels");
        if (rate is < 8_000 or > 768_000)
            throw Refuse(RecordingErrorKind.Unsupported, path, offset + 4, $"sample rates from 8 to 768 kHz are read, this header says {rate} Hz", "If the rate is not what was recorded the header is damaged; copy the file again, else convert it");
    }

    private static (ushort Tag, int Valid, uint Mask) ReadExtension(ReadOnlySpan<byte> data, int bits, string path, long offset)
    {
        if (data.Length < 40)
            throw Refuse(RecordingErrorKind.Malformed, path, offset, $"an EXTENSIBLE fmt chunk has at least 40 bytes, this one {data.Length}", "The header is damaged; copy the file from the card again");
        int valid = BinaryPrimitives.ReadUInt16LittleEndian(data[18..]);
        var mask = BinaryPrimitives.ReadUInt32LittleEndian(data[20..]);
        var code = BinaryPrimitives.ReadUInt32LittleEndian(data[24..]);
        var tail = data[28..40];
        if (code > ushort.MaxValue || !(tail.SequenceEqual(WaveGuidTail) || tail.SequenceEqual(AmbisonicGuidTail)))
            throw Refuse(RecordingErrorKind.Unsupported, path, offset + 24, $"SubFormat {Convert.ToHexString(data[24..40])} is not integer PCM or IEEE float", "Convert the file to integer PCM or float WAVE");
        return ((ushort)code, valid == 0 ? bits : valid, mask);
    }

    private static (SampleFormat Format, string? Disagreement) Judge(ushort tag, int channels, int blockAlign, int bits, int valid, string path, long offset)
    {
        if (tag is not (Pcm or IeeeFloat))
            throw Refuse(RecordingErrorKind.Unsupported, path, offset, $"samples are coded as {NameOf(tag)}; integer PCM and IEEE float are read", "Convert the file to integer PCM or float WAVE");
        string? disagreement = null;
        var container = ((bits + 7) / 8) * 8;
        if (blockAlign != channels * container / 8)
        {
            disagreement = string.Create(CultureInfo.InvariantCulture, $"the header says {blockAlign} bytes a frame where {channels} channels of {bits} bits need {channels * container / 8}");
            // A wider block is believed: 24 bits in 32 are stored so. A narrower or uneven one cannot be right.
            if (blockAlign % channels == 0 && blockAlign / channels * 8 is var wider && wider > container && wider <= 32 && tag == Pcm)
                container = wider;
        }

        if (valid > container)
        {
            disagreement ??= string.Create(CultureInfo.InvariantCulture, $"the header says {valid} valid bits in words of {container}");
            valid = container;
        }

        var encoding = tag == IeeeFloat ? SampleEncoding.Float : container == 8 ? SampleEncoding.UnsignedInteger : SampleEncoding.SignedInteger;
        var format = new SampleFormat(encoding, container, tag == IeeeFloat ? container : valid);
        if (!format.IsSupported)
            throw Refuse(bits == 0 ? RecordingErrorKind.Malformed : RecordingErrorKind.Unsupported, path, offset + 14, $"{bits}-bit {(tag == IeeeFloat ? "float" : "integer")} samples are not read; integer PCM of 8, 16, 24 and 32 bits and float of 32 and 64 are", "If that is not what was recorded the header is damaged; copy the file again, else convert it");
        return (format, disagreement);
    }

    private static string NameOf(ushort tag) => tag switch
    {
        0x0002 or 0x0011 => "ADPCM",
        0x0006 => "A-law",
        0x0007 => "µ-law",
        0x0050 or 0x0055 => "MPEG audio",
        _ => string.Create(CultureInfo.InvariantCulture, $"format 0x{tag:X4}"),
    };

    private static RecordingException Refuse(RecordingErrorKind kind, string path, long offset, string rule, string remedy) => new(kind, path, rule, remedy, offset, "fmt ");
}
