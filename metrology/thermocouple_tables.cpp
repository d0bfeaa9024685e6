#include "metrology/thermocouple_tables.h"

#include <array>

namespace heatwork::metrology {
namespace {

// Coefficients of NIST Standard Reference Database 60 (Monograph 175), the functions of IEC 60584-1. Standing: measured. source:
// nist-srd-60
constexpr std::array<double, 9> emf_S_0 = {0.0,
                                           0.00540313308631,
                                           1.2593428974e-05,
                                           -2.32477968689e-08,
                                           3.22028823036e-11,
                                           -3.31465196389e-14,
                                           2.55744251786e-17,
                                           -1.25068871393e-20,
                                           2.71443176145e-24};
constexpr std::array<double, 5> emf_S_1 = {1.32900444085, 0.00334509311344, 6.54805192818e-06, -1.64856259209e-09, 1.29989605174e-14};
constexpr std::array<double, 5> emf_S_2 = {146.628232636, -0.258430516752, 0.000163693574641, -3.30439046987e-08, -9.43223690612e-15};
constexpr std::array<EmfPiece, 3> emf_S = {{{-50.0, 1064.18, emf_S_0}, {1064.18, 1664.5, emf_S_1}, {1664.5, 1768.1, emf_S_2}}};

constexpr std::array<double, 10> inverse_S_0 = {0.0,        184.94946,   -80.0504062, 102.23743,   -152.248592,
                                                188.821343, -159.085941, 82.302788,   -23.4181944, 2.7978626};
constexpr std::array<double, 10> inverse_S_1 = {12.91507177,   146.6298863,   -15.34713402,    3.145945973,      -0.4163257839,
                                                0.03187963771, -0.0012916375, 2.183475087e-05, -1.447379511e-07, 8.211272125e-09};
constexpr std::array<double, 10> inverse_S_2 = {-80.87801117,   162.1573104, -8.536869453, 0.4719686976, -0.01441693666,
                                                0.000208161889, 0.0,         0.0,          0.0,          0.0};
constexpr std::array<double, 10> inverse_S_3 = {53338.75126, -12358.92298, 1092.657613, -42.65693686, 0.624720542, 0.0, 0.0, 0.0, 0.0, 0.0};
constexpr std::array<InversePiece, 4> inverse_S = {{{-50.0, 250.0, -0.235, 1.874, inverse_S_0},
                                                    {250.0, 1200.0, 1.874, 11.95, inverse_S_1},
                                                    {1064.0, 1664.5, 10.332, 17.536, inverse_S_2},
                                                    {1664.5, 1768.1, 17.536, 18.693, inverse_S_3}}};

constexpr std::array<double, 10> emf_R_0 = {0.0,
                                            0.00528961729765,
                                            1.39166589782e-05,
                                            -2.38855693017e-08,
                                            3.56916001063e-11,
                                            -4.62347666298e-14,
                                            5.00777441034e-17,
                                            -3.73105886191e-20,
                                            1.57716482367e-23,
                                            -2.81038625251e-27};
constexpr std::array<double, 6> emf_R_1 = {2.95157925316,      -0.00252061251332, 1.59564501865e-05,
                                           -7.64085947576e-09, 2.05305291024e-12, -2.93359668173e-16};
constexpr std::array<double, 5> emf_R_2 = {152.232118209, -0.268819888545, 0.000171280280471, -3.45895706453e-08, -9.34633971046e-15};
constexpr std::array<EmfPiece, 3> emf_R = {{{-50.0, 1064.18, emf_R_0}, {1064.18, 1664.5, emf_R_1}, {1664.5, 1768.1, emf_R_2}}};

constexpr std::array<double, 11> inverse_R_0 = {0.0,      188.9138,  -93.83529,  130.68619, -227.0358, 351.45659,
                                                -389.539, 282.39471, -126.07281, 31.353611, -3.3187769};
constexpr std::array<double, 11> inverse_R_1 = {
    13.34584505,     147.2644573,     -18.44024844,    4.031129726,     -0.624942836, 0.06468412046,
    -0.004458750426, 0.0001994710149, -5.31340179e-06, 6.481976217e-08, 0.0};
constexpr std::array<double, 11> inverse_R_2 = {-81.99599416, 155.3962042, -8.342197663, 0.4279433549, -0.0119157791, 0.0001492290091, 0.0,
                                                0.0,          0.0,         0.0,          0.0};
constexpr std::array<double, 11> inverse_R_3 = {34061.77836, -7023.729171, 558.2903813, -19.52394635, 0.2560740231, 0.0,
                                                0.0,         0.0,          0.0,         0.0,          0.0};
constexpr std::array<InversePiece, 4> inverse_R = {{{-50.0, 250.0, -0.226, 1.923, inverse_R_0},
                                                    {250.0, 1200.0, 1.923, 13.228, inverse_R_1},
                                                    {1064.0, 1664.5, 11.361, 19.739, inverse_R_2},
                                                    {1664.5, 1768.1, 19.739, 21.103, inverse_R_3}}};

constexpr std::array<double, 7> emf_B_0 = {
    0.0, -0.00024650818346, 5.9040421171e-06, -1.3257931636e-09, 1.5668291901e-12, -1.694452924e-15, 6.2990347094e-19};
constexpr std::array<double, 9> emf_B_1 = {-3.8938168621,    0.02857174747,     -8.4885104785e-05, 1.5785280164e-07, -1.6835344864e-10,
                                           1.1109794013e-13, -4.4515431033e-17, 9.8975640821e-21,  -9.3791330289e-25};
constexpr std::array<EmfPiece, 2> emf_B = {{{0.0, 630.615, emf_B_0}, {630.615, 1820.0, emf_B_1}}};

constexpr std::array<double, 9> inverse_B_0 = {98.423321, 699.715,    -847.65304, 1005.2644, -833.45952,
                                               455.08542, -155.23037, 29.88675,   -2.474286};
constexpr std::array<double, 9> inverse_B_1 = {213.15071, 285.10504,     -52.742887,    9.9160804,     -1.2965303,
                                               0.1119587, -0.0060625199, 0.00018661696, -2.4878585e-06};
constexpr std::array<InversePiece, 2> inverse_B = {{{250.0, 700.0, 0.291, 2.431, inverse_B_0}, {700.0, 1820.0, 2.431, 13.82, inverse_B_1}}};

constexpr std::array<double, 11> emf_K_0 = {0.0,
                                            0.039450128025,
                                            2.3622373598e-05,
                                            -3.2858906784e-07,
                                            -4.9904828777e-09,
                                            -6.7509059173e-11,
                                            -5.7410327428e-13,
                                            -3.1088872894e-15,
                                            -1.0451609365e-17,
                                            -1.9889266878e-20,
                                            -1.6322697486e-23};
constexpr std::array<double, 10> emf_K_1 = {-0.017600413686,   0.038921204975,   1.8558770032e-05,  -9.9457592874e-08, 3.1840945719e-10,
                                            -5.6072844889e-13, 5.6075059059e-16, -3.2020720003e-19, 9.7151147152e-23,  -1.2104721275e-26};
constexpr std::array<EmfPiece, 2> emf_K = {{{-270.0, 0.0, emf_K_0}, {0.0, 1372.0, emf_K_1}}};

constexpr std::array<double, 10> inverse_K_0 = {0.0,         25.173462,    -1.1662878,   -1.0833638,     -0.8977354,
                                                -0.37342377, -0.086632643, -0.010450598, -0.00051920577, 0.0};
constexpr std::array<double, 10> inverse_K_1 = {0.0,         25.08355,     0.07860106,   -0.2503131,   0.0831527,
                                                -0.01228034, 0.0009804036, -4.41303e-05, 1.057734e-06, -1.052755e-08};
constexpr std::array<double, 10> inverse_K_2 = {-131.8058,    48.30222,     -1.646031, 0.05464731, -0.0009650715,
                                                8.802193e-06, -3.11081e-08, 0.0,       0.0,        0.0};
constexpr std::array<InversePiece, 3> inverse_K = {
    {{-200.0, 0.0, -5.891, 0.0, inverse_K_0}, {0.0, 500.0, 0.0, 20.644, inverse_K_1}, {500.0, 1372.0, 20.644, 54.886, inverse_K_2}}};

constexpr std::array<double, 9> emf_N_0 = {0.0,
                                           0.026159105962,
                                           1.0957484228e-05,
                                           -9.3841111554e-08,
                                           -4.6412039759e-11,
                                           -2.6303357716e-12,
                                           -2.2653438003e-14,
                                           -7.6089300791e-17,
                                           -9.3419667835e-20};
constexpr std::array<double, 11> emf_N_1 = {0.0,
                                            0.025929394601,
                                            1.571014188e-05,
                                            4.3825627237e-08,
                                            -2.5261169794e-10,
                                            6.4311819339e-13,
                                            -1.0063471519e-15,
                                            9.9745338992e-19,
                                            -6.0863245607e-22,
                                            2.0849229339e-25,
                                            -3.0682196151e-29};
constexpr std::array<EmfPiece, 2> emf_N = {{{-270.0, 0.0, emf_N_0}, {0.0, 1300.0, emf_N_1}}};

constexpr std::array<double, 10> inverse_N_0 = {0.0,       38.436847, 1.1010485,  5.2229312,  7.2060525,
                                                5.8488586, 2.7754916, 0.77075166, 0.11582665, 0.0073138868};
constexpr std::array<double, 10> inverse_N_1 = {0.0,          38.6896,    -1.08267,     0.0470205, -2.12169e-06,
                                                -0.000117272, 5.3928e-06, -7.98156e-08, 0.0,       0.0};
constexpr std::array<double, 10> inverse_N_2 = {19.72485,     33.00943, -0.3915159, 0.009855391, -0.0001274371,
                                                7.767022e-07, 0.0,      0.0,        0.0,         0.0};
constexpr std::array<InversePiece, 3> inverse_N = {
    {{-200.0, 0.0, -3.99, 0.0, inverse_N_0}, {0.0, 600.0, 0.0, 20.613, inverse_N_1}, {600.0, 1300.0, 20.613, 47.513, inverse_N_2}}};

// By the order of ThermocoupleType.
constexpr std::array<std::span<const EmfPiece>, 5> all_emf = {emf_S, emf_R, emf_B, emf_K, emf_N};
constexpr std::array<std::span<const InversePiece>, 5> all_inverse = {inverse_S, inverse_R, inverse_B, inverse_K, inverse_N};

}  // namespace

std::span<const EmfPiece> emf_pieces(ThermocoupleType type) {
  return all_emf[static_cast<std::size_t>(type)];
}

std::span<const InversePiece> inverse_pieces(ThermocoupleType type) {
  return all_inverse[static_cast<std::size_t>(type)];
}

}  // namespace heatwork::metrology
